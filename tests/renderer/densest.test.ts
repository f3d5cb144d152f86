import { expect, test } from 'vitest';
import { blankMask, setBit } from '../../core/raster/index.ts';
import { densest } from '../../renderer/workers/densest.ts';

test('the fullest squares come first, each by the middle of its ink, on the surface', () => {
  // Two points a mm over 100 × 50 mm, from (-50, -25).
  const mask = blankMask(200, 100);
  const fill = (x0: number, y0: number, x1: number, y1: number) => {
    for (let y = y0; y < y1; y++) for (let x = x0; x < x1; x++) setBit(mask, x, y);
  };
  fill(10, 10, 20, 14);
  fill(150, 80, 170, 90);
  fill(199, 0, 200, 1);
  const places = densest(mask, { x: -50, y: -25, width: 100, height: 50 });
  expect(places).toHaveLength(3);
  expect(places[0]).toEqual({ s: 30, t: -17.5 });
  expect(places[1]).toEqual({ s: -42.5, t: 19 });
  expect(places[2]!.s).toBeCloseTo(49.75, 12);
  expect(places[2]!.t).toBeCloseTo(24.75, 12);
});

test('at most a dozen places, none without ink', () => {
  const mask = blankMask(2000, 400);
  for (let i = 0; i < 40; i++) setBit(mask, i * 50, (i * 97) % 400);
  const box = { x: 0, y: 0, width: 1000, height: 200 };
  expect(densest(mask, box)).toHaveLength(12);
  expect(densest(blankMask(2000, 400), box)).toEqual([]);
});
