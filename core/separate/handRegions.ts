import type { Coverage } from './coverage.ts';
import { type ArtFrame, type HandShape, handCover } from './handShape.ts';

/** A region of the art that was given by hand to an ink or to bare wood. Inks by their plane: 0 is bare, i + 1 ink i. */
export interface HandRegion {
  readonly shape: HandShape;
  readonly to: number;
  /** Only what this ink had changes; null: whatever is there. */
  readonly only: number | null;
  /** What is bare in the art stays bare. */
  readonly bareStays: boolean;
}

/** Regions in the order they were drawn, and how the window lies over the art they are drawn on. */
export interface HandRegions {
  readonly list: readonly HandRegion[];
  readonly frame: ArtFrame;
}

/** None: a hand may have changed colours alone. */
export const NO_REGIONS: HandRegions = {
  list: [],
  frame: { scaleX: 1, scaleY: 1, offsetX: 0, offsetY: 0 },
};

/**
 * Gives the covered share of every point to each region's ink, in order; later regions see what earlier ones made. Changes the
 * coverage; its planes still sum to 255.
 */
export function layRegions(coverage: Coverage, { list, frame }: HandRegions): void {
  const { planes } = coverage;
  const width = coverage.width as number;
  for (const { shape, to, only, bareStays } of list) {
    const target = planes[to];
    if (!target) continue;
    const cover = handCover(shape, frame, width, coverage.height as number);
    if (!cover) continue;
    const from = planes
      .map((plane, p) => ({ plane, p }))
      .filter(({ p }) => p !== to && (only === null || p === only) && !(bareStays && p === 0));
    const { width: wide, height: high, data } = cover.plane;
    for (let y = 0; y < high; y++)
      for (let x = 0, i = y * wide; x < wide; x++, i++) {
        const share = data[i]!;
        if (share === 0) continue;
        const at = (cover.y + y) * width + cover.x + x;
        let gained = 0;
        for (const { plane } of from) {
          const moved = Math.round((plane[at]! * share) / 255);
          plane[at] = plane[at]! - moved;
          gained += moved;
        }
        target[at] = target[at]! + gained;
      }
  }
}
