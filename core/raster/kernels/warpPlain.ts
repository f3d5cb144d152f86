import type { Mask } from '../mask.ts';
import type { WarpGrid } from '../warpGrid.ts';
import { CUBIC } from './cubicWeights.ts';

/** Fractions of a source point that positions are rounded down to. 255 × 2048² still fits 31 bits. */
export const SUB = 2048;
const SUB_BITS = 11;

/**
 * The readable definition of `warpArgmax`. The place of output point X of a row in a grid cell of `step` points:
 *   L, R  = the cell's left and right edge at the row's centre, lerped between nodes in 64-bit floats
 *   place = L + (R − L)/step × (X + 0.5) − 0.5, in source point centres, rounded down to 1/2048.
 * Where the four source points around a place agree on the winner, it wins without sampling: a sum with non-negative
 * weights keeps every one of the winner's (for lower indices strict) comparisons.
 *
 * `cubic`: the sixteen points around are weighed by `CUBIC`, and samples below 0 count as 0. There too a winner that all sixteen
 * agree on wins unsampled, which with negative weights is part of the definition: art's flat parts stay as they are.
 */
export function warpRows(
  planes: readonly Uint8Array[],
  srcWidth: number,
  srcHeight: number,
  grid: WarpGrid,
  out: readonly Mask[],
  outX: number,
  outY: number,
  width: number,
  height: number,
  cubic = false,
): void {
  const { step, cols, xy } = grid;
  const winners = winnersOf(planes, srcWidth * srcHeight);
  const winnerAt = (x: number, y: number): number =>
    x < 0 || y < 0 || x >= srcWidth || y >= srcHeight ? 0 : winners[y * srcWidth + x]!;
  const coverAt = (k: number, x: number, y: number): number =>
    x < 0 || y < 0 || x >= srcWidth || y >= srcHeight ? (k === 0 ? 255 : 0) : planes[k]![y * srcWidth + x]!;
  /** Weight of the point `at` places on from the one at or left of a place with fraction f. */
  const weight = (f: number, at: number): number => (cubic ? CUBIC[4 * f + at + 1]! : at === 0 ? SUB - f : f);
  const maxX = srcWidth * SUB;
  const maxY = srcHeight * SUB;

  for (let row = 0; row < height; row++) {
    const r = Math.floor(row / step);
    const v = (row + 0.5 - r * step) / step;
    for (let c = 0; c * step < width; c++) {
      const i = 2 * (r * cols + c);
      const j = i + 2 * cols;
      const leftX = xy[i]! + (xy[j]! - xy[i]!) * v;
      const leftY = xy[i + 1]! + (xy[j + 1]! - xy[i + 1]!) * v;
      const dx = (xy[i + 2]! + (xy[j + 2]! - xy[i + 2]!) * v - leftX) / step;
      const dy = (xy[i + 3]! + (xy[j + 3]! - xy[i + 3]!) * v - leftY) / step;
      const end = Math.min(width, (c + 1) * step);
      for (let x = c * step; x < end; x++) {
        const u = x - c * step + 0.5;
        const qx = Math.floor((leftX + dx * u - 0.5) * SUB);
        const qy = Math.floor((leftY + dy * u - 0.5) * SUB);
        // Written so that a place that is no number counts as outside.
        if (!(qx > -SUB && qx < maxX && qy > -SUB && qy < maxY)) continue;
        const ix = qx >> SUB_BITS;
        const iy = qy >> SUB_BITS;
        const fx = qx & (SUB - 1);
        const fy = qy & (SUB - 1);
        const from = cubic ? -1 : 0;
        const to = cubic ? 2 : 1;
        let winner = winnerAt(ix, iy);
        let agreed = true;
        for (let j = from; j <= to; j++)
          for (let i = from; i <= to; i++) if (winnerAt(ix + i, iy + j) !== winner) agreed = false;
        if (!agreed) {
          let best = -1;
          for (let k = 0; k < planes.length; k++) {
            let sample = 0;
            for (let j = from; j <= to; j++) {
              let across = 0;
              for (let i = from; i <= to; i++) across += coverAt(k, ix + i, iy + j) * weight(fx, i);
              sample += across * weight(fy, j);
            }
            if (Math.max(0, sample) > best) {
              best = Math.max(0, sample);
              winner = k;
            }
          }
        }
        if (winner === 0) continue;
        const mask = out[winner - 1]!;
        const bit = outX + x;
        const word = (outY + row) * mask.stride + (bit >>> 5);
        mask.data[word] = mask.data[word]! | (1 << (bit & 31));
      }
    }
  }
}

/** The plane with the largest value at each source point, the lowest index among equals. */
function winnersOf(planes: readonly Uint8Array[], points: number): Uint8Array {
  const winners = new Uint8Array(points);
  const best = planes[0]!.slice(0, points);
  for (let k = 1; k < planes.length; k++) {
    const plane = planes[k]!;
    for (let i = 0; i < points; i++)
      if (plane[i]! > best[i]!) {
        best[i] = plane[i]!;
        winners[i] = k;
      }
  }
  return winners;
}
