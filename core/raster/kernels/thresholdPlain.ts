import type { Mask } from '../mask.ts';
import type { Plane } from '../plane.ts';
import type { ThresholdTile } from '../thresholdTile.ts';

/** Inks each point whose value is at least its threshold: the readable definition. */
export function thresholdPlain(plane: Plane, tile: ThresholdTile, out: Mask): void {
  const { width: period, height: depth, shift, data } = tile;
  for (let y = 0; y < plane.height; y++) {
    const row = (y % depth) * period;
    let at = (Math.floor(y / depth) * shift) % period;
    const from = y * plane.width;
    const to = y * out.stride;
    let word = 0;
    for (let x = 0; x < plane.width; x++) {
      if (plane.data[from + x]! >= data[row + at]!) word |= 1 << (x & 31);
      if (++at === period) at = 0;
      if ((x & 31) === 31 || x === plane.width - 1) {
        out.data[to + (x >>> 5)] = word;
        word = 0;
      }
    }
  }
}
