import type { Px } from '../units/index.ts';
import { union } from './algebra.ts';
import type { Band } from './band.ts';
import { discSquares } from './disc.ts';
import { opening } from './grow.ts';
import { blankLike, type Mask } from './mask.ts';
import { crop } from './window.ts';

/**
 * Walks the local half-thickness τ of the ink down a ladder of radii: τ(p) is the radius of the largest digital disc
 * dx² + dy² ≤ r² that lies wholly inside the ink and covers p. Calls `each(radiusPx, covered)` from the largest radius to
 * the smallest, `covered` being every point with τ ≥ that radius, within the ladder. Digital discs do not nest
 * under opening as real ones do, therefore `covered` unites all openings so far: it only ever gains points.
 *
 * `covered` is reused: copy it to keep it. The ladder of `discSquares` (their square roots) makes τ exact; a coarser
 * one rounds τ down to its rungs.
 */
export function thicknessLadder(
  mask: Mask,
  radiiPx: readonly Px[],
  each: (radiusPx: Px, covered: Mask) => void,
): void {
  const covered = blankLike(mask);
  const open = blankLike(mask);
  for (const radius of [...radiiPx].sort((a, b) => b - a)) {
    union(covered, opening(mask, radius, open), covered);
    each(radius, covered);
  }
}

/**
 * The squared local half-thickness τ² of each point of a band of rows (0 where bare or where only the disc of radius 0
 * fits), exact up to `limitPx` and no larger than that: one number a point, rows × width.
 */
export function localHalfThickness(mask: Mask, band: Band, limitPx: Px): Uint32Array {
  // A disc that covers a point of the band reaches at most its diameter beyond it, and must be seen whole.
  const margin = 2 * Math.ceil(limitPx) + 1;
  const top = Math.max(0, band.y - margin);
  const bottom = Math.min(mask.height, band.y + band.rows + margin);
  const part = crop(mask, 0, top, mask.width, bottom - top);
  const out = new Uint32Array(band.rows * mask.width);
  thicknessLadder(part, discSquares(limitPx).map(Math.sqrt), (radius, { data, stride }) => {
    const squared = Math.round(radius * radius);
    for (let row = 0; row < band.rows; row++) {
      const source = (row + band.y - top) * stride;
      const at = row * mask.width;
      for (let x = 0; x < mask.width; x++)
        if (out[at + x] === 0 && ((data[source + (x >>> 5)]! >>> (x & 31)) & 1) === 1) out[at + x] = squared;
    }
  });
  return out;
}
