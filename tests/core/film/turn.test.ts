import { describe, expect, test } from 'vitest';
import { mirrored, turnLeft } from '../../../core/film/turn.ts';
import { blankMask, type Mask } from '../../../core/raster/index.ts';
import { seeded } from './testFace.ts';

const at = (mask: Mask, x: number, y: number): number =>
  x < 0 || y < 0 || x >= (mask.width as number) || y >= (mask.height as number)
    ? 0
    : (mask.data[y * mask.stride + (x >> 5)]! >>> (x & 31)) & 1;

function noise(width: number, height: number, seed: number): Mask {
  const random = seeded(seed);
  const mask = blankMask(width, height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++)
      if (random() < 0.4) mask.data[y * mask.stride + (x >> 5)]! |= 1 << (x & 31);
  }
  return mask;
}

/** Every point as asked, and no bit beyond the width. */
function expectPoints(mask: Mask, want: (x: number, y: number) => number): void {
  let wrong = 0;
  for (let y = 0; y < (mask.height as number); y++) {
    for (let x = 0; x < mask.stride * 32; x++) {
      const bit = (mask.data[y * mask.stride + (x >> 5)]! >>> (x & 31)) & 1;
      if (bit !== (x < (mask.width as number) ? want(x, y) : 0)) wrong++;
    }
  }
  expect(wrong).toBe(0);
}

describe('masks turned and mirrored by words equal the same done point by point', () => {
  for (const [w, h] of [
    [1, 1],
    [31, 33],
    [32, 32],
    [33, 31],
    [127, 64],
    [128, 5],
    [129, 130],
    [300, 70],
  ] as const) {
    test(`${w} × ${h}`, () => {
      const mask = noise(w, h, w * 1000 + h);
      const left = turnLeft(mask);
      expect([left.width, left.height]).toEqual([h, w]);
      expectPoints(left, (x, y) => at(mask, w - 1 - y, x));
      expectPoints(mirrored(mask), (x, y) => at(mask, w - 1 - x, y));
    });
  }
});
