import { describe, expect, test } from 'vitest';
import {
  blankMask,
  draw,
  enlargeMask,
  equal,
  errorDiffuseShares,
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

describe('shares as dots of single inks', () => {
  test('keep the measure of every ink', () => {
    const side = 128;
    const asked = [25, 115, 5, 110];
    const planes = asked.map((v) => new Uint8Array(side * side).fill(v));
    const made = errorDiffuseShares(planes, side, side).map((m) => inkCount(m) / side ** 2);
    asked.slice(1).forEach((v, i) => {
      expect(Math.abs((made[i] as number) - v / 255)).toBeLessThan(0.004);
    });
  });

  test('give each point one ink or none, and flat parts no speck of another', () => {
    const [w, h] = [64, 32];
    const left = new Uint8Array(w * h).map((_, i) => (i % w < 32 ? 128 : 0));
    const other = left.map((v) => (v ? 127 : 0));
    const flat = left.map((v) => (v ? 0 : 255));
    const [a, b, c] = errorDiffuseShares([new Uint8Array(w * h), left, other, flat], w, h);
    if (!a || !b || !c) throw new Error('Three inks give three masks.');
    expect(inkCount(a) + inkCount(b)).toBe(32 * h);
    expect(inkCount(c)).toBe(32 * h);
  });

  test('spread the error of Floyd and Steinberg: 7 to the next point, 3, 5 and 1 below, of 16', () => {
    // Half of ink and bare in one row: by hand 0.5 takes bare (first of equals), 0.5 + 7/16 · 0.5 takes ink, and so on.
    const half = new Uint8Array(8).fill(127);
    const rest = half.map((v) => 255 - v);
    const [ink] = errorDiffuseShares([rest, half], 8, 1);
    const by = [];
    for (let x = 0, carry = 0; x < 8; x++) {
      const want = 127 / 255 + carry;
      const takes = want > 0.5;
      by.push(takes ? '#' : '.');
      carry = (7 / 16) * (want - (takes ? 1 : 0));
    }
    expect(draw(ink as never)).toBe(by.join(''));
  });
});
