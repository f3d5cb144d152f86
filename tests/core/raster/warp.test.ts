import { describe, expect, test } from 'vitest';
import {
  blankMask,
  getBit,
  inkCount,
  type Mask,
  type WarpGrid,
  warpArgmax,
} from '../../../core/raster/index.ts';
import { tidy } from './randomMask.ts';
import { gridOf, type Map2, softPlanes } from './warpCases.ts';

/**
 * Straight from the definition, in floating point: node lerp, bilinear sampling, argmax. Gives the winner, or −1 where two
 * samples are so close that rounding positions to 1/2048 may decide.
 */
function winnerAt(
  planes: readonly Uint8Array[],
  w: number,
  h: number,
  grid: WarpGrid,
  x: number,
  y: number,
): number {
  const [gx, gy] = [(x + 0.5) / grid.step, (y + 0.5) / grid.step];
  const [c, r] = [Math.floor(gx), Math.floor(gy)];
  const node = (dc: number, dr: number, i: number) => grid.xy[2 * ((r + dr) * grid.cols + c + dc) + i]!;
  const lerp2 = (i: number) =>
    (node(0, 0, i) * (1 - gx + c) + node(1, 0, i) * (gx - c)) * (1 - gy + r) +
    (node(0, 1, i) * (1 - gx + c) + node(1, 1, i) * (gx - c)) * (gy - r);
  const [sx, sy] = [lerp2(0) - 0.5, lerp2(1) - 0.5];
  const [ix, iy] = [Math.floor(sx), Math.floor(sy)];
  const at = (k: number, px: number, py: number) =>
    px < 0 || py < 0 || px >= w || py >= h ? (k === 0 ? 255 : 0) : planes[k]![py * w + px]!;
  const samples = planes.map(
    (_, k) =>
      (at(k, ix, iy) * (ix + 1 - sx) + at(k, ix + 1, iy) * (sx - ix)) * (iy + 1 - sy) +
      (at(k, ix, iy + 1) * (ix + 1 - sx) + at(k, ix + 1, iy + 1) * (sx - ix)) * (sy - iy),
  );
  const best = Math.max(...samples);
  // 255 levels over a point, two axes, 1/2048 each, and a little for the node's 32-bit floats.
  const close = samples.filter((s) => best - s < (4 * 255) / 2048 + 0.1).length;
  return close > 1 ? -1 : samples.indexOf(best);
}

const masksFor = (planes: readonly Uint8Array[], width: number, height: number): Mask[] =>
  planes.slice(1).map(() => blankMask(width, height));

const MAPS: [string, Map2][] = [
  ['three times enlarged', (x, y) => [x / 3.1 - 2, y / 3.1 - 3]],
  ['turned a quarter', (x, y) => [y / 2.2, 40 - x / 2.2]],
  ['turned and bent', (x, y) => [x / 2 + 4 * Math.sin(y / 30) - 5, y / 2 - x / 9 + 6]],
  ['reduced', (x, y) => [x * 1.7 - 30, y * 1.9 - 20]],
  ['far outside', (x, y) => [x + 1e7, y - 1e7]],
];

describe('warping coverage to masks', () => {
  test.each(MAPS)('%s: the largest sample wins', (_, map) => {
    const [w, h] = [70, 55];
    for (const [count, width, height, step] of [
      [3, 130, 97, 16],
      [6, 97, 61, 10],
      [9, 200, 40, 64],
      [2, 1, 1, 8],
    ] as const) {
      const planes = softPlanes(count, w, h, count);
      const grid = gridOf(width, height, step, map);
      const out = masksFor(planes, width, height);
      warpArgmax(planes, w, h, grid, out, 0, 0, width, height);
      let open = 0;
      for (let y = 0; y < height; y++)
        for (let x = 0; x < width; x++) {
          const winners = out.flatMap((mask, k) => (getBit(mask, x, y) ? [k + 1] : []));
          expect(winners.length).toBeLessThanOrEqual(1);
          const expected = winnerAt(planes, w, h, grid, x, y);
          if (expected === -1) open++;
          else expect(winners[0] ?? 0, `${x}, ${y}`).toBe(expected);
        }
      expect(open).toBeLessThan(width * height * 0.05);
      expect(out.every(tidy)).toBe(true);
    }
  });

  test('tiles give the same as the whole', () => {
    const [w, h, width, height] = [70, 55, 210, 150];
    const planes = softPlanes(5, w, h, 8);
    const map: Map2 = (x, y) => [x / 3.2 + Math.sin(y / 40), y / 3 - 0.3];
    const whole = masksFor(planes, width, height);
    warpArgmax(planes, w, h, gridOf(width, height, 32, map), whole, 0, 0, width, height);
    const parts = masksFor(planes, width, height);
    for (const [x, y, tw, th] of [
      [0, 0, 96, 64],
      [96, 0, 114, 64],
      [0, 64, 160, 86],
      [160, 64, 50, 86],
    ] as const)
      warpArgmax(
        planes,
        w,
        h,
        gridOf(tw, th, 32, (a, b) => map(a + x, b + y)),
        parts,
        x,
        y,
        tw,
        th,
      );
    let differing = 0;
    whole.forEach((mask, k) => {
      for (let y = 0; y < height; y++)
        for (let x = 0; x < width; x++) if (getBit(mask, x, y) !== getBit(parts[k]!, x, y)) differing++;
    });
    // Node places are 32-bit floats: a tile's own nodes may round a knife-edge point the other way.
    expect(differing).toBeLessThan(width * height * 0.0005);
  });

  test('ink already there stays, equals go to the lower plane, the same size copies', () => {
    const planes = [
      Uint8Array.of(100, 0, 255, 85),
      Uint8Array.of(100, 130, 0, 85),
      Uint8Array.of(55, 125, 0, 85),
    ];
    const out = masksFor(planes, 40, 2);
    out[1]!.data[1] = 128;
    warpArgmax(
      planes,
      2,
      2,
      gridOf(2, 2, 4, (x, y) => [x, y]),
      out,
      0,
      0,
      2,
      2,
    );
    expect([...out[0]!.data.subarray(0, 5)]).toEqual([2, 0, 0, 0, 0]);
    expect([...out[1]!.data.subarray(0, 5)]).toEqual([0, 128, 0, 0, 0]);
  });

  test('places that are no numbers count as outside', () => {
    const planes = softPlanes(3, 20, 20, 1);
    const grid = gridOf(64, 64, 32, (x, y) => [x / 3, y / 3]);
    grid.xy.fill(Number.NaN, 0, 2);
    const out = masksFor(planes, 64, 64);
    warpArgmax(planes, 20, 20, grid, out, 0, 0, 64, 64);
    for (const mask of out)
      for (let y = 0; y < 32; y++) for (let x = 0; x < 32; x++) expect(getBit(mask, x, y)).toBe(false);
    expect(out.reduce((sum, mask) => sum + inkCount(mask), 0)).toBeGreaterThan(0);
  });

  test('a tile that does not fit is a bug and throws', () => {
    const planes = softPlanes(2, 8, 8, 1);
    const grid = gridOf(64, 64, 16, (x, y) => [x / 8, y / 8]);
    const out = masksFor(planes, 64, 64);
    expect(() => warpArgmax(planes, 8, 8, grid, out, 5, 0, 20, 20)).toThrow(/multiple of 32/);
    expect(() => warpArgmax(planes, 8, 8, grid, out, 32, 0, 40, 20)).toThrow(/inside the masks/);
    expect(() => warpArgmax(planes, 8, 8, grid, [], 0, 0, 20, 20)).toThrow(/masks/);
    expect(() => warpArgmax(planes, 9, 8, grid, out, 0, 0, 20, 20)).toThrow(/plane/);
    const small = gridOf(16, 16, 16, (x, y) => [x, y]);
    expect(() => warpArgmax(planes, 8, 8, small, out, 0, 0, 20, 20)).toThrow(/span/);
  });

  test.each(['bilinear', 'bicubic'] as const)(
    'a disc enlarged six times keeps its area and its roundness, %s',
    (filter) => {
      const planes = [new Uint8Array(40 * 40), new Uint8Array(40 * 40)];
      for (let y = 0; y < 40; y++)
        for (let x = 0; x < 40; x++) {
          // Coverage by 16 × 16 samples.
          let inside = 0;
          for (let s = 0; s < 256; s++)
            if (Math.hypot(x + ((s & 15) + 0.5) / 16 - 20, y + ((s >> 4) + 0.5) / 16 - 20) < 15) inside++;
          planes[1]![y * 40 + x] = Math.min(255, inside);
          planes[0]![y * 40 + x] = 255 - Math.min(255, inside);
        }
      const out = masksFor(planes, 240, 240);
      warpArgmax(
        planes,
        40,
        40,
        gridOf(240, 240, 48, (x, y) => [x / 6, y / 6]),
        out,
        0,
        0,
        240,
        240,
        filter,
      );
      expect(Math.abs(inkCount(out[0]!) / (Math.PI * 90 * 90) - 1)).toBeLessThan(0.005);
      for (let i = 0; i < 360; i += 5) {
        const [c, s] = [Math.cos((i * Math.PI) / 180), Math.sin((i * Math.PI) / 180)];
        expect(getBit(out[0]!, Math.floor(120 + 88.5 * c), Math.floor(120 + 88.5 * s))).toBe(true);
        expect(getBit(out[0]!, Math.floor(120 + 91.5 * c), Math.floor(120 + 91.5 * s))).toBe(false);
      }
    },
  );
});
