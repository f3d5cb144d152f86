import { expect, test } from 'vitest';
import { inkCounts } from '../../../core/film/inkCounts.ts';
import { getBit } from '../../../core/raster/index.ts';
import { randomMask, stream } from '../raster/randomMask.ts';

test('ink is counted by columns and rows as if point by point, at every width to 130', () => {
  const next = stream(4);
  for (let width = 1; width <= 130; width++) {
    const height = 1 + Math.floor(next() * 40);
    const mask = randomMask(width, height, [0, 0.1, 0.6, 1][width % 4]!, width);
    const step = 1 + Math.floor(next() * 5);
    const inked = (x: number, y: number) => (getBit(mask, x, y) ? 1 : 0);
    const columns = Array.from({ length: width }, (_, x) => {
      let ink = 0;
      for (let y = 0; y < height; y += step) ink += step * inked(x, y);
      return ink;
    });
    const rows = Array.from({ length: height }, (_, y) => {
      let ink = 0;
      for (let x = 0; x < width; x++) ink += inked(x, y);
      return ink;
    });
    expect([...inkCounts(mask, 'columns', step)], `${width} × ${height}`).toEqual(columns);
    expect([...inkCounts(mask, 'rows', step)], `${width} × ${height}`).toEqual(rows);
  }
});
