import { artTrouble } from '../../core/sentences/index.ts';

/** What a file in layers may be; inks are pulled by hand, so that more layers than this were not prepared for a press. */
export const LAYER_LIMITS = {
  layers: 48,
  /** Stacks inside stacks. */
  deep: 16,
  /** Points of a canvas, and of all layers together: each is four bytes while it is worked on. */
  points: 80_000_000,
  allPoints: 320_000_000,
  /** Bytes of a zip's entries, unpacked. */
  unpacked: 384 * 1024 * 1024,
  entries: 1000,
  /** Of a PDF, pages. */
  pages: 48,
} as const;

export const tooManyLayers = (name: string) => artTrouble.tooManyLayers(name, LAYER_LIMITS.layers);
export const layersTooLarge = (name: string) =>
  artTrouble.layersTooLarge(name, LAYER_LIMITS.points / 1e6, LAYER_LIMITS.allPoints / 1e6);
