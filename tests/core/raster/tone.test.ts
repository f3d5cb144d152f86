import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { blueNoiseFile } from '../../../build/blueNoise.mjs';
import { BLUE_NOISE_SEED, BLUE_NOISE_SIZE } from '../../../core/raster/blueNoise.ts';
import {
  blueNoiseTile,
  components,
  draw,
  errorDiffuse,
  getBit,
  halftoneMask,
  inkCount,
  type Mask,
  type Plane,
  type Screen,
  screenTile,
  type ThresholdTile,
  thresholdMask,
} from '../../../core/raster/index.ts';
import { voidAndCluster } from '../../../core/raster/voidAndCluster.ts';
import { stream } from './randomMask.ts';

const tint = (width: number, height: number, level: number): Plane => ({
  width,
  height,
  data: new Uint8Array(width * height).fill(level),
});

/** The threshold that the brick wall puts at (x, y). */
const thresholdAt = (tile: ThresholdTile, x: number, y: number): number => {
  const brick = Math.floor(y / tile.height);
  const column = (((x + brick * tile.shift) % tile.width) + tile.width) % tile.width;
  return tile.data[(y - brick * tile.height) * tile.width + column]!;
};

const SCREENS: Screen[] = [];
for (const dpi of [300, 600, 1200])
  for (const lpi of [25, 35, 45, 55, 65])
    for (const angle of [0, 7.5, 15, 22.5, 45, 52.5, 61, 75, 90, -15])
      SCREENS.push({
        dpi,
        lpi,
        angle,
        dot: SCREENS.length % 3 === 0 ? 'round' : SCREENS.length % 3 === 1 ? 'elliptical' : 'line',
      });

describe('screens of dots', () => {
  test('ruling and angle come out as asked, within what no print shows', () => {
    for (const screen of SCREENS) {
      const tile = screenTile(screen);
      expect(Math.abs(tile.lpi / screen.lpi - 1), JSON.stringify(screen)).toBeLessThan(0.005);
      expect(Math.abs(tile.angle - screen.angle), JSON.stringify(screen)).toBeLessThan(0.12);
    }
  });

  test('each level inks its share of the points', () => {
    for (const screen of SCREENS.filter((_, i) => i % 7 === 0)) {
      const { data } = screenTile(screen);
      const counts = new Array(256).fill(0);
      for (const t of data) counts[t]++;
      expect(counts[0]).toBe(0);
      for (let g = 1, below = 0; g <= 255; g++) {
        below += counts[g];
        expect(Math.abs(below / data.length - g / 255)).toBeLessThanOrEqual(1 / data.length);
      }
    }
  });

  test('a tint prints the tone asked for, to a hundredth, over the ramp: every dot, angle and ruling in use, and scattered', () => {
    // Forty cells and more across, so that dots cut by the border weigh little.
    const side = 900;
    const levels = [5, 13, 26, 51, 77, 102, 128, 153, 178, 204, 230, 242, 250];
    const off = (mask: Mask, level: number) => Math.abs(inkCount(mask) / side ** 2 - level / 255);
    for (const lpi of [35, 45, 55, 65])
      for (const angle of [0, 7.5, 15, 22.5, 45, 52.5, 67.5, 75, 82.5])
        for (const dot of ['round', 'elliptical', 'line'] as const) {
          const tile = screenTile({ dpi: 600, lpi, angle, dot });
          for (const level of levels)
            expect(
              off(thresholdMask(tint(side, side, level), tile), level),
              `${dot}, ${lpi} lpi at ${angle}°, ${level}`,
            ).toBeLessThan(0.01);
        }
    for (const level of levels)
      expect(
        off(thresholdMask(tint(side, side, level), blueNoiseTile()), level),
        `scattered, ${level}`,
      ).toBeLessThan(0.01);
  });

  test('the wall repeats along both sides of its supercell', () => {
    for (const screen of SCREENS.filter((_, i) => i % 4 === 0)) {
      const tile = screenTile(screen);
      // The sides, from the tile's own numbers: length² = points, angle as made.
      const side = Math.sqrt(tile.data.length);
      const a = Math.round(side * Math.cos((tile.angle * Math.PI) / 180));
      const b = Math.round(side * Math.sin((tile.angle * Math.PI) / 180));
      expect(a * a + b * b).toBe(tile.data.length);
      for (let i = 0; i < 300; i++) {
        const [x, y] = [(i * 37) % 500, 2000 + ((i * 53) % 400)];
        const here = thresholdAt(tile, x, y);
        expect(thresholdAt(tile, x + a, y - b), JSON.stringify(screen)).toBe(here);
        expect(thresholdAt(tile, x + b, y + a), JSON.stringify(screen)).toBe(here);
      }
    }
  });

  test('a light tint has lpi² dots a square inch, in rows along the angle', () => {
    for (const [lpi, angle] of [
      [45, 22.5],
      [35, 45],
      [55, 75],
      [30, 0],
    ] as const) {
      const dots = components(halftoneMask(tint(800, 800, 60), { lpi, angle, dot: 'round', dpi: 600 }));
      const inner = dots.filter(
        (d) => d.box.x > 0 && d.box.y > 0 && d.box.x + d.box.width < 800 && d.box.y + d.box.height < 800,
      );
      // Dots cut by the border count half.
      const count = inner.length + (dots.length - inner.length) / 2;
      expect(Math.abs(count / ((800 / 600) ** 2 * lpi * lpi) - 1)).toBeLessThan(0.03);
      const middle = inner.map((d) => [d.box.x + d.box.width / 2, d.box.y + d.box.height / 2] as const);
      const cell = 600 / lpi;
      // Mean direction of the steps from a dot to its neighbour along the rows, y up.
      let [sx, sy, n] = [0, 0, 0];
      const want = [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)] as const;
      for (const [x, y] of middle)
        for (const [px, py] of middle) {
          const [dx, dy] = [px - x, y - py];
          if (Math.hypot(dx - cell * want[0], dy - cell * want[1]) > cell / 3) continue;
          sx += dx;
          sy += dy;
          n++;
        }
      expect(n).toBeGreaterThan(inner.length * 0.8);
      expect(Math.abs(Math.hypot(sx, sy) / n / cell - 1)).toBeLessThan(0.01);
      expect(Math.abs((Math.atan2(sy, sx) * 180) / Math.PI - angle)).toBeLessThan(0.3);
    }
  });

  test.each([
    ['line', 55, 0],
    ['line', 45, 90],
    ['line', 50, 22.5],
    ['line', 65, 15],
    ['line', 50, 75],
    ['round', 55, 0],
    ['round', 45, 45],
    ['round', 65, 45],
    ['elliptical', 65, 45],
    ['round', 65, 61],
    ['elliptical', 40, 75],
  ] as const)('an even tint is even over some lines: %s, %d lines an inch at %d°', (dot, lpi, angle) => {
    const side = 520;
    const reach = Math.round((3 * 600) / lpi);
    const weights = Array.from({ length: 2 * reach - 1 }, (_, i) => reach - Math.abs(i - reach + 1));
    for (const level of [38, 89, 128, 178]) {
      const mask = halftoneMask(tint(side, side, level), { lpi, angle, dot, dpi: 600 });
      // A tent of six lines along rows, then along columns, read here and there.
      const tent = (from: Float64Array, step: number, at: number) =>
        weights.reduce((sum, w, k) => sum + w * from[at + (k - reach + 1) * step]!, 0) / reach ** 2;
      const ink = Float64Array.from({ length: side * side }, (_, i) =>
        getBit(mask, i % side, Math.floor(i / side)) ? 1 : 0,
      );
      const rows = new Float64Array(side * side);
      for (let y = 0; y < side; y++)
        for (let x = reach; x < side - reach; x += 9) rows[y * side + x] = tent(ink, 1, y * side + x);
      let worst = 0;
      for (let y = reach; y < side - reach; y += 9)
        for (let x = reach; x < side - reach; x += 9)
          worst = Math.max(worst, Math.abs(tent(rows, side, y * side + x) - level / 255));
      expect(worst, `${level}`).toBeLessThan(0.01);
    }
  });

  test('elliptical dots join along the angle before they join across', () => {
    // Round dots all meet near one half; ellipses make chains well before.
    const at = (dot: Screen['dot'], share: number) =>
      components(halftoneMask(tint(600, 600, Math.round(share * 255)), { lpi: 30, angle: 0, dot, dpi: 600 }));
    expect(at('round', 0.42).length).toBeGreaterThan(800);
    const chains = at('elliptical', 0.42);
    expect(chains.length).toBeLessThan(40);
    expect(chains.every((c) => c.box.width > 500)).toBe(true);
  });

  test('coverage 0 is bare, 255 is full, and cells too small to hold a dot are refused', () => {
    const screen: Screen = { lpi: 45, angle: 22.5, dot: 'round', dpi: 600 };
    expect(inkCount(halftoneMask(tint(100, 100, 0), screen))).toBe(0);
    expect(inkCount(halftoneMask(tint(100, 100, 255), screen))).toBe(10000);
    expect(() => screenTile({ ...screen, lpi: 400 })).toThrow(RangeError);
    expect(() => screenTile({ ...screen, lpi: 0 })).toThrow(RangeError);
  });
});

describe('blue noise', () => {
  const size = BLUE_NOISE_SIZE;

  test('the tile kept as data is the one void-and-cluster makes', () => {
    const file = new URL('../../../core/raster/blueNoise.generated.ts', import.meta.url);
    expect(readFileSync(file, 'utf8')).toBe(blueNoiseFile(voidAndCluster(size, BLUE_NOISE_SEED)));
  });

  test('every rank occurs once', () => {
    expect([...voidAndCluster(16, 5)].sort((a, b) => a - b)).toEqual(
      Array.from({ length: 256 }, (_, i) => i),
    );
  });

  /** Mean power of the tint's pattern at frequencies below `limit` and above it, cycles a tile, by the plain transform. */
  function power(level: number, limit: number, ink: (i: number) => boolean): { low: number; high: number } {
    const sums = { low: 0, high: 0 };
    const counts = { low: 0, high: 0 };
    const mean = level / 255;
    for (let v = 0; v <= size / 2; v += 1)
      for (let u = 0; u <= size / 2; u += 1) {
        if (u === 0 && v === 0) continue;
        let [re, im] = [0, 0];
        for (let i = 0; i < size * size; i++) {
          const phase = (2 * Math.PI * (u * (i % size) + v * Math.floor(i / size))) / size;
          const value = (ink(i) ? 1 : 0) - mean;
          re += value * Math.cos(phase);
          im += value * Math.sin(phase);
        }
        const band = Math.hypot(u, v) < limit ? 'low' : 'high';
        sums[band] += re * re + im * im;
        counts[band]++;
      }
    return { low: sums.low / counts.low, high: sums.high / counts.high };
  }

  test.each([26, 128])(
    'level %i has next to no power at low frequencies, where white noise has as much as anywhere',
    (level) => {
      const { data } = blueNoiseTile();
      const next = stream(2);
      const white = Uint8Array.from({ length: size * size }, () => 1 + Math.floor(255 * next()));
      // The mean distance of points, as a frequency, is √share cycles a point (Ulichney's principal frequency); well below it.
      const limit = 0.4 * size * Math.sqrt(Math.min(level, 255 - level) / 255);
      const blue = power(level, limit, (i) => level >= data[i]!);
      const noise = power(level, limit, (i) => level >= white[i]!);
      expect(blue.low / blue.high).toBeLessThan(0.1);
      expect(noise.low / noise.high).toBeGreaterThan(0.4);
    },
  );
});

describe('error diffusion', () => {
  test('a row worked by hand', () => {
    // Sixteenths of a level: 1600 is short of 2040, 7/16 of it (700) go on: 2300 is not. The row below gets the rest.
    expect(draw(errorDiffuse({ width: 2, height: 1, data: Uint8Array.of(100, 100) }))).toBe('.#');
    // 4080 − 4080 leaves nothing; 2560 inks and owes 1520, 7/16 of which (665) leave 2560 − 665 = 1895: bare.
    expect(draw(errorDiffuse({ width: 3, height: 1, data: Uint8Array.of(255, 160, 160) }))).toBe('##.');
  });

  test('no tone is lost: what is inked differs from what was asked by less than the last row can hold', () => {
    for (let level = 0; level <= 255; level += 5) {
      const [width, height] = [97, 83];
      const ink = inkCount(errorDiffuse(tint(width, height, level)));
      expect(Math.abs(ink - (width * height * level) / 255), `level ${level}`).toBeLessThanOrEqual(width);
    }
    const next = stream(4);
    const data = Uint8Array.from({ length: 500 * 400 }, () => 255 * next());
    const sum = data.reduce((a, b) => a + b, 0) / 255;
    expect(Math.abs(inkCount(errorDiffuse({ width: 500, height: 400, data })) - sum)).toBeLessThanOrEqual(
      500,
    );
  });
});

test('thresholds must fill their tile', () => {
  expect(() =>
    thresholdMask(tint(4, 4, 9), { width: 4, height: 4, shift: 0, data: new Uint8Array(15) }),
  ).toThrow(RangeError);
});
