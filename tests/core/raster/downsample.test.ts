import { expect, test } from 'vitest';
import {
  blankMask,
  complement,
  downsample,
  getBit,
  inkCount,
  planeFromMask,
} from '../../../core/raster/index.ts';
import { blobs, randomMask } from './randomMask.ts';

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

test('a window at any scale keeps the area of ink', () => {
  const mask = blobs(200, 120, 20, 4);
  for (const scale of [0.11, 0.5, 0.77, 1, 1.9]) {
    const plane = planeFromMask(mask, { x: -20, y: -11.5, width: 240, height: 140 }, scale);
    const points = (240 * 140) / (plane.width * plane.height);
    const area = plane.data.reduce((sum, value) => sum + value, 0) * (points / 255);
    expect(Math.abs(area / inkCount(mask) - 1)).toBeLessThan(0.01);
  }
});

test('a window of whole squares is the plain reduction', () => {
  const mask = randomMask(96, 64, 0.5, 9);
  const box = { x: 8, y: 16, width: 80, height: 40 };
  const part = planeFromMask(mask, box, 1 / 4);
  const whole = downsample(mask, 4);
  for (let y = 0; y < 10; y++)
    for (let x = 0; x < 20; x++)
      expect(part.data[y * 20 + x]).toBe(whole.data[(y + 4) * whole.width + x + 2]);
});

test('full ink is 255 and a point enlarged keeps its value', () => {
  const full = complement(blankMask(50, 50));
  expect(
    planeFromMask(full, { x: 3.3, y: 4.7, width: 20, height: 20 }, 0.37).data.every((v) => v === 255),
  ).toBe(true);
  const doubled = planeFromMask(randomMask(20, 20, 0.5, 3), { x: 0, y: 0, width: 20, height: 20 }, 2);
  expect([...doubled.data].every((v) => v === 0 || v === 255)).toBe(true);
});
