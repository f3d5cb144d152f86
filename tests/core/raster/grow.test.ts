import { describe, expect, test } from 'vitest';
import {
  blankMask,
  complement,
  draw,
  equal,
  getBit,
  grow,
  inkCount,
  type Mask,
  maskOf,
  opening,
  setBit,
  shrink,
  subtract,
  thinParts,
} from '../../../core/raster/index.ts';
import { blobs, randomMask, tidy } from './randomMask.ts';

/** By the definition: every point of the mask against every offset of the disc. */
function byBruteForce(mask: Mask, r: number, shrinking: boolean): Mask {
  const out = blankMask(mask.width, mask.height);
  const reach = Math.floor(r);
  for (let y = 0; y < mask.height; y++)
    for (let x = 0; x < mask.width; x++) {
      let [any, all] = [false, true];
      for (let dy = -reach; dy <= reach; dy++)
        for (let dx = -reach; dx <= reach; dx++) {
          if (dx * dx + dy * dy > r * r + 1e-9) continue;
          if (getBit(mask, x + dx, y + dy)) any = true;
          else all = false;
        }
      if (shrinking ? all : any) setBit(out, x, y);
    }
  return out;
}

const RADII = [0, 0.5, 1, Math.SQRT2, 1.6, 2, Math.sqrt(5), 3.3, 4, 5.7, 8, 12];

describe('growth and shrinking by a disc', () => {
  test('growing a dot by one point makes a plus', () => {
    expect(draw(grow(maskOf('... / .#. / ...'), 1))).toBe('.#. / ### / .#.');
  });

  test('the points in a disc are those of the circle problem', () => {
    // Lattice points x² + y² ≤ r², r = 0 to 12: OEIS A000328.
    const counts = [1, 5, 13, 29, 49, 81, 113, 149, 197, 253, 317, 377, 441];
    const dot = blankMask(41, 41);
    setBit(dot, 20, 20);
    expect(counts.map((_, r) => inkCount(grow(dot, r)))).toEqual(counts);
  });

  test('every width from 1 to 130 agrees with brute force', () => {
    for (let width = 1; width <= 130; width++) {
      const r = RADII[width % RADII.length]!;
      for (const share of [0.02, 0.97]) {
        const mask = randomMask(width, 13, share, width);
        const grown = grow(mask, r);
        const shrunk = shrink(mask, r);
        expect(tidy(grown) && tidy(shrunk)).toBe(true);
        expect(equal(grown, byBruteForce(mask, r, false)), `grow ${width} by ${r}`).toBe(true);
        expect(equal(shrunk, byBruteForce(mask, r, true)), `shrink ${width} by ${r}`).toBe(true);
      }
    }
  });

  test.each(RADII)('line art grows and shrinks by %d as brute force says', (r) => {
    const art = blobs(97, 71, 9, Math.round(r * 100));
    expect(equal(grow(art, r), byBruteForce(art, r, false))).toBe(true);
    expect(equal(shrink(art, r), byBruteForce(art, r, true))).toBe(true);
  });

  test('a large disc takes several steps sideways and stays exact', () => {
    const dot = blankMask(2300, 3);
    setBit(dot, 1150, 1);
    const r = 1100;
    const grown = grow(dot, r);
    const row = 2 * Math.floor(Math.sqrt(r * r - 1)) + 1;
    expect(inkCount(grown)).toBe(2 * r + 1 + 2 * row);
  });

  test('empty stays empty, full stays full, and shrinking bites from the borders', () => {
    const full = complement(blankMask(130, 20));
    expect(inkCount(grow(blankMask(130, 20), 9))).toBe(0);
    expect(equal(grow(full, 9), full)).toBe(true);
    expect(inkCount(shrink(full, 3))).toBe((130 - 6) * (20 - 6));
    expect(inkCount(shrink(full, 10))).toBe(0);
  });

  test('the mask itself may take the result', () => {
    const art = blobs(97, 71, 9, 3);
    const expected = grow(art, 5);
    expect(equal(grow(art, 5, art), expected)).toBe(true);
    const smaller = shrink(art, 2);
    expect(equal(shrink(art, 2, art), smaller)).toBe(true);
  });

  test('growth is the complement of shrinking the complement, away from the borders', () => {
    const art = blobs(120, 90, 10, 8);
    const a = grow(art, 4.2);
    const b = complement(shrink(complement(art), 4.2));
    for (let y = 5; y < 85; y++) for (let x = 5; x < 115; x++) expect(getBit(a, x, y)).toBe(getBit(b, x, y));
  });

  test('a film of full size grows at its borders too', () => {
    // A dot in every corner, at the middle of every side, and across a word's border.
    const [width, height, r] = [19370, 4960, 24];
    const film = blankMask(width, height);
    const dots = [0, 1, 9685, 9695, 9696, width - 2, width - 1].flatMap((x) =>
      [0, 2480, height - 1].map((y) => [x, y] as const),
    );
    for (const [x, y] of dots) setBit(film, x, y);
    const grown = grow(film, r);
    let expected = 0;
    for (const [cx, cy] of [
      [0, 0],
      [9690, 0],
      [width - 1, 0],
      [0, 2480],
      [9690, 2480],
      [width - 1, 2480],
      [0, height - 1],
      [9690, height - 1],
      [width - 1, height - 1],
    ] as const)
      for (let y = Math.max(0, cy - 40); y < Math.min(height, cy + 41); y++)
        for (let x = Math.max(0, cx - 40); x < Math.min(width, cx + 41); x++) {
          const ink = dots.some(([px, py]) => (px - x) ** 2 + (py - y) ** 2 <= r * r);
          if (ink) expected++;
          if (ink !== getBit(grown, x, y)) throw new Error(`point ${x}, ${y} should be ${ink}`);
        }
    expect(inkCount(grown)).toBe(expected);
    expect(inkCount(shrink(grown, r))).toBeGreaterThan(0);
  });
});

describe('thin parts', () => {
  test('a hairline and the corners of a bar are thin, its body is not', () => {
    const art = blankMask(60, 40);
    for (let y = 5; y < 25; y++) for (let x = 5; x < 25; x++) setBit(art, x, y);
    for (let x = 25; x < 55; x++) setBit(art, x, 15);
    const thin = thinParts(art, 3);
    expect(getBit(thin, 40, 15)).toBe(true);
    expect(getBit(thin, 15, 15)).toBe(false);
    expect(getBit(thin, 5, 5)).toBe(true);
    expect(equal(thin, subtract(art, opening(art, 3)))).toBe(true);
    // Opening twice changes nothing more (idempotence, J. Serra 1982).
    expect(equal(opening(opening(art, 3), 3), opening(art, 3))).toBe(true);
  });
});
