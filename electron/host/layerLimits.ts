import { badInput } from '../../core/units/index.ts';

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

export const tooManyLayers = (name: string) =>
  badInput(
    `“${name}” has more than ${LAYER_LIMITS.layers} layers.`,
    'Merge the layers of one ink in your editor, and remove those that do not print.',
  );
export const layersTooLarge = (name: string) =>
  badInput(
    `The layers of “${name}” have more points than Kickflat takes (${LAYER_LIMITS.points / 1e6} million each, ${LAYER_LIMITS.allPoints / 1e6} million in all).`,
    'Scale the picture down: 600 dpi at the size of the deck is all a film can show.',
  );
