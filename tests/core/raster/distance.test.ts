import { describe, expect, test } from 'vitest';
import {
  blankMask,
  complement,
  discSquares,
  distanceSquared,
  getBit,
  type Mask,
  shrink,
} from '../../../core/raster/index.ts';
import { blobs, randomMask } from './randomMask.ts';

/** Every bare point, inside and one step outside the mask, against every point. */
function byBruteForce(mask: Mask, limit: number): number[] {
  const bare: [number, number][] = [];
  for (let y = -1; y <= mask.height; y++)
    for (let x = -1; x <= mask.width; x++) if (!getBit(mask, x, y)) bare.push([x, y]);
  const out: number[] = [];
  for (let y = 0; y < mask.height; y++)
    for (let x = 0; x < mask.width; x++)
      out.push(Math.min(Math.floor(limit * limit), ...bare.map(([bx, by]) => (bx - x) ** 2 + (by - y) ** 2)));
  return out;
}

describe('distances', () => {
  test('the radii at which a digital disc changes are the sums of two squares', () => {
    // OEIS A001481.
    expect(discSquares(5)).toEqual([0, 1, 2, 4, 5, 8, 9, 10, 13, 16, 17, 18, 20, 25]);
  });

  test('agree with brute force at widths 1 to 130', () => {
    for (let width = 1; width <= 130; width += 1) {
      const mask = randomMask(width, 8, [0.6, 0.97, 1][width % 3]!, width);
      const limit = [3, 6.5, 40][width % 3]!;
      expect([...distanceSquared(mask, { y: 0, rows: 8 }, limit)]).toEqual(byBruteForce(mask, limit));
    }
  });

  test('bands give the same as the whole, however they are cut', () => {
    const mask = blobs(150, 90, 12, 6);
    const whole = distanceSquared(mask, { y: 0, rows: 90 }, 12);
    for (const rows of [1, 7, 32, 89])
      for (let y = 0; y < 90; y += rows) {
        const n = Math.min(rows, 90 - y);
        expect([...distanceSquared(mask, { y, rows: n }, 12)]).toEqual([
          ...whole.subarray(y * 150, (y + n) * 150),
        ]);
      }
  });

  test('wide rows stay exact to both ends', () => {
    const mask = complement(blankMask(19370, 40));
    const d = distanceSquared(mask, { y: 19, rows: 1 }, 100);
    for (const x of [0, 1, 5, 19, 20, 9685, 19348, 19349, 19369])
      expect(d[x]).toBe(Math.min(x + 1, 19370 - x, 20) ** 2);
  });

  test('shrinking by r keeps the points farther than r from bare', () => {
    const mask = blobs(200, 120, 16, 9);
    const d = distanceSquared(mask, { y: 0, rows: 120 }, 30);
    for (const squared of [1, 2, 5, 10, 25]) {
      const small = shrink(mask, Math.sqrt(squared));
      for (let y = 0; y < 120; y++)
        for (let x = 0; x < 200; x++) expect(getBit(small, x, y)).toBe(d[y * 200 + x]! > squared);
    }
  });
});
