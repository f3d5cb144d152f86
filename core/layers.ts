import { type Art, type FaceJob, type Ink, screenedInks } from './job/index.ts';
import { onBase } from './printInk.ts';
import { blankMask, type Mask, type Picture } from './raster/index.ts';
import { alphaOf, type ScreenInput } from './toneTasks.ts';

/** A piece that prints as one ink's layer. */
export interface InkLayer {
  readonly piece: Art;
  /** The ink's place in the pull order. */
  readonly ink: number;
}

/** The layers of a face that print, bottom-most first. Pieces without an ink of this face do not. */
export function layersOf(face: FaceJob): InkLayer[] {
  return face.art.flatMap((piece) => {
    const ink = face.inks.findIndex(({ id }) => id === piece.layer?.ink);
    return piece.hidden || ink < 0 ? [] : [{ piece, ink }];
  });
}

/** A tint of at least this share (of 255) has the base under it. */
const TINT = { width: 1, height: 1, shift: 0, data: Uint8Array.of(13) };

/** Where a layer of tones has any ink to speak of: what the base lies under. */
export const tintArea = (tones: Picture, factor: number, out: Mask): ScreenInput => ({
  plane: alphaOf(tones),
  factor,
  tile: TINT,
  out,
});

/** The separations that traps look at: screened layers neither spread nor are spread under. */
export function solidOnly(face: FaceJob, separations: readonly Mask[], shared: boolean): Mask[] {
  const screened = new Set(screenedInks(face));
  return separations.map((mask, i) => (screened.has(i) ? blankMask(mask.width, mask.height, shared) : mask));
}

/** What the base lies under: the prints of solid inks that need it, and the whole area of screened ones. */
export const underBase = (
  inks: readonly Ink[],
  prints: readonly (Mask | null)[],
  areas: ReadonlyMap<number, Mask>,
): Mask[] =>
  inks.flatMap((ink, i) => {
    const mask = areas.get(i) ?? prints[i];
    return onBase(ink) && mask ? [mask] : [];
  });
