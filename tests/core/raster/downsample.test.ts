import { expect, test } from 'vitest';
import { downsample, getBit } from '../../../core/raster/index.ts';
import { randomMask } from './randomMask.ts';

test.each([1, 2, 3, 7, 8, 32, 33, 40])('reducing by %i counts the points in each square', (factor) => {
  const mask = randomMask(133, 71, 0.4, factor);
  const plane = downsample(mask, factor);
  expect([plane.width, plane.height]).toEqual([Math.ceil(133 / factor), Math.ceil(71 / factor)]);
  for (let r = 0; r < plane.height; r++)
    for (let c = 0; c < plane.width; c++) {
      let count = 0;
      for (let y = 0; y < factor; y++)
        for (let x = 0; x < factor; x++) if (getBit(mask, c * factor + x, r * factor + y)) count++;
      expect(plane.data[r * plane.width + c]).toBe(Math.round((255 * count) / (factor * factor)));
    }
});
