import { describe, expect, test } from 'vitest';
import { barePlain } from '../../../core/raster/bareRows.ts';
import {
  bareRows,
  blankMask,
  copyMask,
  equal,
  getBit,
  intersect,
  type Mask,
  setBit,
  smallPieces,
} from '../../../core/raster/index.ts';
import { type Kernels, kernels } from '../../../core/raster/kernels/load.ts';
import { smallPiecesFast } from '../../../core/raster/kernels/smallPiecesFast.ts';
import { signedWords } from '../../../core/raster/mask.ts';
import { smallPiecesPlain } from '../../../core/raster/smallPieces.ts';
import { blobs, randomMask, tidy } from './randomMask.ts';

const fast = kernels() as Kernels;

/** Teeth joined at their tips only, row after row: labels that meet late. */
function comb(width: number, height: number): Mask {
  const mask = blankMask(width, height);
  for (let y = 0; y < height; y++) for (let x = 0; x < width; x += y % 7 === 6 ? 1 : 2) setBit(mask, x, y);
  return mask;
}

describe('small pieces by the kernel', () => {
  test('are the components of so few points, at every width, in reading order', () => {
    for (let width = 1; width <= 130; width++)
      for (const share of [0, 0.03, 0.2, 0.45, 1]) {
        const mask = randomMask(width, 23, share, width);
        for (const below of [2, 7.5, 1e9])
          expect(smallPiecesFast(fast, mask, below), `${width}, ${share}, ${below}`).toEqual(
            smallPiecesPlain(mask, below),
          );
      }
  });

  test('are those also where labels run out and are settled many times', () => {
    // Some 180,000 pieces, where a few thousand labels have room; and rows wider than a band has bytes for many of.
    for (const mask of [randomMask(3000, 700, 0.12, 4), randomMask(41_000, 40, 0.3, 6), comb(2001, 500)])
      expect(smallPiecesFast(fast, mask, 40)).toEqual(smallPiecesPlain(mask, 40));
    expect(smallPiecesPlain(randomMask(3000, 700, 0.12, 4), 40).length).toBeGreaterThan(50_000);
    const drawn = blobs(3000, 2000, 900, 5);
    expect(smallPieces(drawn, 60)).toEqual(smallPiecesPlain(drawn, 60));
  });
});

describe('masks in bands', () => {
  const wide = [randomMask(5000, 300, 0.4, 1), blobs(5000, 300, 200, 2), blankMask(5000, 300)] as const;

  test('a mask clipped in its place has the ink that both have', () => {
    for (const a of wide)
      for (const b of wide) {
        const clipped = copyMask(a);
        expect(intersect(clipped, b, clipped)).toBe(clipped);
        expect(equal(clipped, intersect(a, b))).toBe(true);
      }
  });

  test('bare rows are where ink may go and no mask has any', () => {
    const [inks, top, bottom] = [[wide[0], wide[1]], 31, 288];
    const may = blobs(5000, 300, 900, 7);
    const bare = bareRows(may, inks, top, bottom);
    expect([bare.width, bare.height, tidy(bare)]).toEqual([5000, bottom - top, true]);
    let wrong = 0;
    for (let y = top; y < bottom; y++)
      for (let x = 0; x < 5000; x++)
        if (getBit(bare, x, y - top) !== (getBit(may, x, y) && !inks.some((mask) => getBit(mask, x, y))))
          wrong++;
    expect(wrong).toBe(0);
    const plain = blankMask(5000, 300);
    barePlain(signedWords(may), inks.map(signedWords), signedWords(plain));
    expect(equal(plain, bareRows(may, inks, 0, 300))).toBe(true);
  });
});
