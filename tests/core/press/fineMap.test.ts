import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fineMap, finestFeatures } from '../../../core/press/index.ts';
import { blankMask, type Mask, setBit } from '../../../core/raster/index.ts';

/** Ten points a mm, so that widths are plain tenths. */
const DPI = 254;

/** Bars of the given widths and starts, points, 60 points long, side by side in rows of their own. */
function bars(widths: readonly number[]): Mask {
  const mask = blankMask(200, 40 * widths.length + 40);
  widths.forEach((width, i) => {
    for (let y = 0; y < width; y++) for (let x = 0; x < 120; x++) setBit(mask, 40 + x, 40 * (i + 1) + y);
  });
  return mask;
}

/** The widths, tenths of a mm, that the map gives within a bar's row. */
function widthsAt(mask: Mask, row: number, which: 'lines' | 'gaps'): number[] {
  const map = fineMap(mask, DPI, 1);
  const found = new Set<number>();
  for (let r = 0; r < map.rows; r++)
    for (let c = 0; c < map.columns; c++) {
      const y = map.y + r * map.cellPx;
      const value = map[which][r * map.columns + c] as number;
      if (value > 0 && Math.abs(y - row) < 12) found.add(value / 10);
    }
  return [...found];
}

describe('where a film is fine', () => {
  test('each bar is told at its own width, to the next even number of points, and thick ones not at all', () => {
    const mask = bars([2, 4, 7, 24]);
    expect(widthsAt(mask, 40, 'lines')).toEqual([2]);
    expect(widthsAt(mask, 80, 'lines')).toEqual([4]);
    // Whole discs are odd across: seven points are told as at most eight.
    expect(widthsAt(mask, 120, 'lines')).toEqual([8]);
    expect(widthsAt(mask, 160, 'lines')).toEqual([]);
    expect(fineMap(mask, DPI, 1).finest).toEqual({ line: expect.closeTo(0.2, 9), gap: null });
  });

  test('a slit between two fields is a gap, and the fields are no lines', () => {
    const mask = blankMask(200, 120);
    for (let y = 20; y < 100; y++) for (let x = 20; x < 180; x++) if (y < 57 || y >= 60) setBit(mask, x, y);
    const map = fineMap(mask, DPI, 1);
    expect(map.finest.line).toBeNull();
    expect(map.finest.gap).toBeCloseTo(0.3, 9);
    expect(map.lines.every((v) => v === 0)).toBe(true);
    // Cells of the slit lie where the slit is: rows 57 to 59 of the mask.
    map.gaps.forEach((value, i) => {
      const y = map.y + Math.floor(i / map.columns) * map.cellPx;
      if (value > 0) expect(y <= 59 && y + map.cellPx > 57).toBe(true);
    });
    expect(map.gaps.some((v) => v === 40)).toBe(true);
  });

  test('nothing inked has nothing fine', () => {
    expect(fineMap(blankMask(50, 50), DPI, 1)).toMatchObject({
      columns: 0,
      rows: 0,
      finest: { line: null, gap: null },
    });
  });

  test('the finest line and gap are those that finestFeatures finds', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 14 }), { minLength: 1, maxLength: 4 }), (widths) => {
        const mask = bars(widths);
        expect(fineMap(mask, DPI, 1).finest).toEqual(finestFeatures(mask, DPI, 1));
      }),
      { seed: 8, numRuns: 25 },
    );
  });
});
