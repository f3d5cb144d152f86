import { expect, test } from 'vitest';
import { blankMask, crop, equal, inkCount, type Mask, paste, subtract } from '../../../core/raster/index.ts';
import { baseMask, trapInk } from '../../../core/trap/index.ts';
import { blobs } from '../raster/randomMask.ts';

/** Higher than several of the bands that traps and chokes are worked out in. */
const [WIDTH, HEIGHT] = [300, 2400];
/** Rows the art is moved down by: what lay in the middle of a band then lies across the seam of two. */
const MOVES = [0, 173, 511];

const moved = (mask: Mask, rows: number): Mask => paste(blankMask(WIDTH, HEIGHT + 900), mask, 0, 300 + rows);
const back = (mask: Mask, rows: number): Mask => crop(mask, 0, 300 + rows, WIDTH, HEIGHT);

const own = blobs(WIDTH, HEIGHT, 700, 5);
const other = subtract(blobs(WIDTH, HEIGHT, 900, 6), own);
const rule = { spreads: 0, under: 1, widthMm: 0.4, why: '', overridden: false };

test('traps are the same wherever the seams of their bands fall', () => {
  const prints = MOVES.map((rows) =>
    back(trapInk([moved(own, rows), moved(other, rows)], 0, [rule], 600, null), rows),
  );
  expect(inkCount(prints[0]!)).toBeGreaterThan(inkCount(own) + 1000);
  for (const print of prints) expect(equal(print, prints[0]!)).toBe(true);
});

test('a base is choked the same wherever the seams of its bands fall', () => {
  const bases = MOVES.map((rows) => {
    const request = { own: moved(blankMask(WIDTH, HEIGHT), 0), covered: [moved(own, rows)] };
    return back(baseMask({ ...request, chokePx: 5, narrowestPx: 7 }), rows);
  });
  expect(inkCount(bases[0]!)).toBeLessThan(inkCount(own) - 1000);
  for (const base of bases) expect(equal(base, bases[0]!)).toBe(true);
});
