import type { DroppedSpeck } from './finishFace.ts';
import type { FaceJob } from './job/index.ts';
import { type Box, pxPerMm } from './units/index.ts';

/** A speck or hole that was too small to print, on the face's surface. */
export interface DroppedPlace {
  /** The ink's id; null: a hole that was filled. */
  readonly ink: string | null;
  readonly s: number;
  readonly t: number;
  readonly mm2: number;
}

/** Points that the smallest speck to be printed must have for a raster to tell it from a ragged edge. */
const TELLS = 6;

/** Whether a raster is fine enough to say what is too small to print, rather than about how much. */
export const tellsSpecks = (face: FaceJob, dpi: number): boolean =>
  face.smallest * pxPerMm(dpi) ** 2 >= TELLS;

/** What was dropped from a raster along the wood, the largest first. `box` in surface mm. */
export function droppedPlaces(
  face: FaceJob,
  { box, dpi }: { readonly box: Box; readonly dpi: number },
  dropped: readonly DroppedSpeck[],
): DroppedPlace[] {
  const scale = pxPerMm(dpi);
  return dropped
    .map(({ ink, areaPx, x, y }) => ({
      ink: ink < 0 ? null : (face.inks[ink]?.id ?? null),
      s: box.x + (x + 0.5) / scale,
      t: box.y + box.height - (y + 0.5) / scale,
      mm2: areaPx / scale ** 2,
    }))
    .sort((a, b) => b.mm2 - a.mm2 || a.s - b.s || a.t - b.t);
}
