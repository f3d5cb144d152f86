import { expect, test } from 'vitest';
import {
  adviseMesh,
  finestFeatures,
  MESH_TABLE,
  meshFigures,
  thinPlaces,
} from '../../../core/press/index.ts';
import { blankMask, type Mask, setBit } from '../../../core/raster/index.ts';

const figures = (mesh: Parameters<typeof meshFigures>[0]) => {
  const worked = meshFigures(mesh);
  if (!worked.ok) throw new Error(worked.reason);
  return worked.value.result;
};

/**
 * Threads/cm, thread µm, opening µm, open area %, ink volume cm³/m²: the wire cloth makers' definitions (Spörl, “Theoretical
 * ink volume”), reckoned apart from this program and rounded; fabric thickness at 1.55 threads, rounded to a µm.
 */
const ROWS = [
  [10, 260, 740.0, 54.76, 220.7],
  [24, 140, 276.67, 44.09, 95.7],
  [32, 100, 212.5, 46.24, 71.7],
  [34, 100, 194.12, 43.56, 67.5],
  [43, 80, 152.56, 43.03, 53.4],
  [48, 70, 138.33, 44.09, 47.8],
  [49, 55, 149.08, 53.36, 45.5],
  [54, 64, 121.19, 42.82, 42.5],
  [55, 64, 117.82, 41.99, 41.7],
  [61, 64, 99.93, 37.16, 36.9],
  [62, 64, 97.29, 36.39, 36.1],
  [64, 64, 92.25, 34.86, 34.6],
  [68, 64, 83.06, 31.9, 31.6],
  [77, 48, 81.87, 39.74, 29.6],
  [77, 55, 74.87, 33.24, 28.3],
  [90, 40, 71.11, 40.96, 25.4],
  [90, 48, 63.11, 32.26, 24.0],
  [90, 54, 57.11, 26.42, 22.1],
  [100, 40, 60.0, 36.0, 22.3],
  [110, 34, 56.91, 39.19, 20.7],
  [120, 31, 52.33, 39.44, 19.0],
  [120, 34, 49.33, 35.05, 18.5],
  [120, 40, 43.33, 27.04, 16.8],
  [140, 31, 40.43, 32.04, 15.4],
  [140, 34, 37.43, 27.46, 14.5],
  [150, 31, 35.67, 28.62, 13.8],
  [165, 27, 33.61, 30.75, 12.9],
  [165, 31, 29.61, 23.86, 11.5],
  [180, 27, 28.56, 26.42, 11.1],
] as const;

test.each(ROWS)('mesh %d-%d', (countPerCm, threadUm, opening, area, volume) => {
  const f = figures({ countPerCm, threadUm });
  expect(f.opening * 1000).toBeCloseTo(opening, 1);
  expect(f.openArea * 100).toBeCloseTo(area, 1);
  // The table rounded the thickness to a whole µm first.
  expect(Math.abs(f.inkVolume / volume - 1)).toBeLessThan(0.02);
});

test.each([
  // nt-jp.com, screen specifications of 90 threads/cm: thread, opening, area %, thickness, ink volume as printed.
  [40, 73, 42, 59, 25],
  [48, 65, 33, 72, 24],
  [54, 59, 27, 84, 23],
])('a maker’s own row, 90 threads/cm with %d µm thread', (threadUm, openingUm, area, thicknessUm, volume) => {
  const f = figures({ countPerCm: 90, threadUm, openingUm, thicknessUm });
  // The maker worked from 225 threads an inch (88.6/cm), so the open area differs by up to two in the hundred.
  expect(f.openArea * 100).toBeGreaterThan(area - 1);
  expect(f.openArea * 100).toBeLessThan(area + 2.5);
  expect(Math.abs(f.inkVolume - volume)).toBeLessThan(1.5);
});

test.each([
  // “How much ink do you need?”, Screen Printing magazine, April 2000, worked examples.
  [{ countPerCm: 39, threadUm: 55 }, 61.76],
  [{ countPerCm: 120, threadUm: 34, thicknessUm: 50 }, 14.25],
])('wet deposit of %o', (mesh, deposit) => expect(figures(mesh).wetDepositUm).toBeCloseTo(deposit, 2));

test('the finest line is a pitch and a thread', () =>
  expect(figures({ countPerCm: 100, threadUm: 40 }).finestLine).toBeCloseTo(0.14, 12));

test('threads thicker than the pitch are refused', () =>
  expect(meshFigures({ countPerCm: 100, threadUm: 101 }).ok).toBe(false));

const DPI = 600;
const wide = (px: number) => (px * 25.4) / DPI;

/** A broad block with a line of `px` points leaving it, at a slant of `slope`. */
function lined(px: number, slope: number): Mask {
  const mask = blankMask(600, 300);
  for (let y = 100; y < 200; y++) for (let x = 20; x < 160; x++) setBit(mask, x, y);
  for (let x = 160; x < 560; x++)
    for (let k = 0; k < px; k++) setBit(mask, x, 120 + k + Math.round((x - 160) * slope));
  return mask;
}

test.each([2, 3, 4, 5, 6, 7, 9, 12])('a level line of %d points is measured to the point', (px) => {
  const { line } = finestFeatures(lined(px, 0), DPI, 0.8);
  expect(line).toBeCloseTo(wide(px), 9);
});

test.each([4, 6, 9])('a gap of %d points between blocks is measured to the point', (px) => {
  const mask = blankMask(400, 300);
  for (let y = 50; y < 250; y++)
    for (let x = 40; x < 360; x++) if (x < 180 || x >= 180 + px) setBit(mask, x, y);
  const { gap, line } = finestFeatures(mask, DPI, 0.8);
  expect(gap).toBeCloseTo(wide(px), 9);
  expect(line).toBeNull();
});

test('corners and curves of broad shapes are no fine lines', () => {
  const mask = blankMask(500, 500);
  for (let y = 0; y < 500; y++)
    for (let x = 0; x < 500; x++)
      if (
        (x - 150) ** 2 + (y - 150) ** 2 < 90 ** 2 ||
        (x > 260 && x < 460 && y > 260 && y < 460) ||
        (y > 300 && x + y < 640 && x > 20)
      )
        setBit(mask, x, y);
  expect(finestFeatures(mask, DPI, 0.8)).toEqual({ line: null, gap: null });
});

test('thin places lie on the line, and only below its width', () => {
  const mask = lined(6, 0);
  const at = thinPlaces(mask, DPI, wide(7.5))[0];
  expect(at && at.x >= 160 && at.y >= 118 && at.y <= 128).toBe(true);
  expect(thinPlaces(mask, DPI, wide(6))).toEqual([]);
});

test('advice: a pearl ink and a 0.25 mm line', () => {
  const worked = adviseMesh({
    line: 0.25,
    gap: null,
    kind: 'pearlescent',
    chosen: { countPerCm: 90, threadUm: 48 },
  });
  if (!worked.ok) throw new Error(worked.reason);
  const { good, chosen, all, warnings } = worked.value.result;
  expect(all).toHaveLength(MESH_TABLE.length);
  expect(chosen.passesInk).toBe(false);
  expect(warnings).toHaveLength(1);
  // By hand: pitch + thread ≤ 0.25 mm and opening ≥ 0.09 mm leave 55 to 64 threads/cm.
  expect(good.map((m) => m.countPerCm)).toEqual([54, 55, 61, 62, 64]);
  for (let i = 1; i < good.length; i++)
    expect(good[i]!.figures.inkVolume).toBeLessThanOrEqual(good[i - 1]!.figures.inkVolume);
});

test('advice: a halftone wants four threads a line', () => {
  // The magazine Screen Printing: 65 lpi × 4 = 260 threads an inch, which is 102.4/cm.
  const worked = adviseMesh({
    line: null,
    gap: null,
    kind: 'opaque',
    lpi: 65,
    chosen: { countPerCm: 100, threadUm: 40 },
  });
  if (!worked.ok) throw new Error(worked.reason);
  expect(worked.value.result.chosen.holdsRuling).toBe(false);
  expect(worked.value.result.good.every((m) => m.countPerCm >= 103)).toBe(true);
});
