import { describe, expect, test } from 'vitest';
import {
  blankMask,
  draw,
  enlargeMask,
  equal,
  inkCount,
  maskOf,
  type Plane,
  screenEnlarged,
  screenTile,
  thresholdMask,
} from '../../../core/raster/index.ts';

test('a mask enlarged threefold has squares of three, cut at the border', () => {
  expect(draw(enlargeMask(maskOf('#. / .#'), 3, blankMask(5, 4)))).toBe('###.. / ###.. / ###.. / ...##');
});

test('runs of enlarged points cross words without a gap', () => {
  const row = maskOf('#'.repeat(40));
  expect(inkCount(enlargeMask(row, 7, blankMask(280, 7)))).toBe(40 * 49);
});

/** A plane enlarged straight by the definition: values hold at the middle of each square and run straight between. */
function enlarged({ width, height, data }: Plane, factor: number, w: number, h: number): Plane {
  const out = new Uint8Array(w * h);
  const at = (x: number, y: number) =>
    data[Math.max(0, Math.min(height - 1, y)) * width + Math.max(0, Math.min(width - 1, x))] as number;
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++) {
      const [px, py] = [(x + 0.5) / factor - 0.5, (y + 0.5) / factor - 0.5];
      const [left, top] = [Math.floor(px), Math.floor(py)];
      const [u, v] = [px - left, py - top];
      const value =
        (at(left, top) * (1 - u) + at(left + 1, top) * u) * (1 - v) +
        (at(left, top + 1) * (1 - u) + at(left + 1, top + 1) * u) * v;
      out[y * w + x] = Math.floor(value + 0.5 + 1e-9);
    }
  return { width: w, height: h, data: out };
}

describe('a plane enlarged and screened in bands', () => {
  for (const [factor, angle] of [
    [1, 22.5],
    [4, 22.5],
    [5, 52.5],
    [3, 0],
  ] as const)
    test(`equals the whole enlarged plane screened at once, factor ${factor}, ${angle}°`, () => {
      const small = { width: 130, height: 170, data: new Uint8Array(130 * 170) };
      for (let i = 0; i < small.data.length; i++) small.data[i] = (i * 37 + ((i / 130) | 0) * 11) % 256;
      const [w, h] = [130 * factor - 2, 170 * factor - 1];
      const tile = screenTile({ lpi: 45, angle, dot: 'elliptical', dpi: 600 });
      const whole = thresholdMask(enlarged(small, factor, w, h), tile);
      expect(equal(screenEnlarged(small, factor, tile, blankMask(w, h)), whole)).toBe(true);
    });

  for (const dot of ['round', 'elliptical', 'line'] as const)
    test(`prints every tone of a ramp within 1 % of what was asked, ${dot}`, () => {
      // A step wedge of 21 steps; each is measured over its middle, away from the slopes between steps.
      const [steps, side, factor] = [21, 40, 5];
      const plane = { width: steps * side, height: side, data: new Uint8Array(steps * side * side) };
      for (let i = 0; i < plane.data.length; i++)
        plane.data[i] = Math.round((255 * Math.floor((i % plane.width) / side)) / (steps - 1));
      const tile = screenTile({ lpi: 40, angle: 22.5, dot, dpi: 600 });
      const out = screenEnlarged(plane, factor, tile, blankMask(plane.width * factor, side * factor));
      for (let s = 0; s < steps; s++) {
        let ink = 0;
        for (let y = 10; y < 190; y++)
          for (let x = s * 200 + 10; x < s * 200 + 190; x++)
            ink += ((out.data[y * out.stride + (x >>> 5)] as number) >>> (x & 31)) & 1;
        // 180 points are twelve cells of 15: whole dots but for the edge of a turned grid.
        expect(Math.abs(ink / 180 ** 2 - s / (steps - 1))).toBeLessThan(0.01);
      }
    });
});
