import type { Px } from '../units/index.ts';

/**
 * The digital disc dx² + dy² ≤ r² row by row: entry v is the largest whole dx in the rows v above and below the centre.
 * Its length is ⌊r⌋ + 1. `radius` in points, real and ≥ 0.
 */
export function discHalfWidths(radius: Px): Int32Array {
  if (!(radius >= 0) || radius > 16384)
    throw new RangeError(`A disc's radius must lie between 0 and 16384 points, but is ${radius}.`);
  // √n squared may fall just below n: a radius meant as a distance between point centres must reach them.
  const squared = Math.floor(radius * radius + 1e-9);
  const rows = Math.floor(Math.sqrt(squared));
  const half = new Int32Array(rows + 1);
  let dx = rows;
  for (let v = 0; v <= rows; v++) {
    while (dx * dx + v * v > squared) dx--;
    half[v] = dx;
  }
  return half;
}

/**
 * The squares of all radii up to `maxRadius` at which the digital disc changes: 0, 1, 2, 4, 5, 8, 9, 10, 13 … (sums
 * of two squares, ascending).
 */
export function discSquares(maxRadius: Px): number[] {
  const limit = Math.floor(maxRadius * maxRadius + 1e-9);
  const seen = new Set<number>();
  for (let a = 0; a * a <= limit; a++)
    for (let b = 0; b <= a && a * a + b * b <= limit; b++) seen.add(a * a + b * b);
  return [...seen].sort((p, q) => p - q);
}
