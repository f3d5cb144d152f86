import { expect, test } from 'vitest';
import { blankMask, type SparseCoverage, warpArgmax, warpSparse } from '../../../core/raster/index.ts';
import { spreadPlanes } from '../../../core/raster/sparseCoverage.ts';
import { stream } from './randomMask.ts';
import { gridOf, type Map2, softPlanes } from './warpCases.ts';

/** The same coverage, told shortly. */
function sparseOf(planes: readonly Uint8Array[], width: number, height: number): SparseCoverage {
  const winners = new Uint8Array(width * height);
  const shared: number[] = [];
  const shares: number[] = [];
  for (let i = 0; i < winners.length; i++) {
    const bytes = planes.map((plane) => plane[i]!);
    winners[i] = bytes.indexOf(Math.max(...bytes));
    if (bytes[winners[i]!] === 255) continue;
    shared.push(i);
    shares.push(...bytes);
  }
  return {
    width,
    height,
    planeCount: planes.length,
    winners,
    shared: Int32Array.from(shared),
    shares: Uint8Array.from(shares),
  };
}

const MAPS: [string, Map2][] = [
  ['enlarged', (x, y) => [x / 3.07 - 2, y / 3.07 - 3]],
  ['as it is', (x, y) => [x, y]],
  ['turned and bent', (x, y) => [x / 2 + 4 * Math.sin(y / 30) - 5, y / 2 - x / 9 + 6]],
  ['reduced', (x, y) => [x * 4.7 - 30, y * 3.9 - 20]],
  ['places no number holds', (x, y) => [x > 60 ? Number.NaN : x / 2, y / 2]],
];

test.each(MAPS)('coverage told shortly warps to the masks of its planes: %s', (_, map) => {
  const next = stream(5);
  for (let i = 0; i < 24; i++) {
    const whole = (n: number) => 1 + Math.floor(next() * n);
    const [w, h, width, height] = [whole(90), whole(70), whole(300), whole(150)];
    const planes = softPlanes(1 + (i % 12), w, h, i);
    const coverage = sparseOf(planes, w, h);
    expect(spreadPlanes(coverage)).toEqual(planes);
    const grid = gridOf(width, height, [8, 32, 20, 128][i % 4]!, map);
    const [x, y] = [32 * Math.floor(next() * 4), Math.floor(next() * 9)];
    const masks = () => planes.slice(1).map(() => blankMask(x + width + 7, y + height + 5));
    const [short, long] = [masks(), masks()];
    warpSparse(coverage, grid, short, x, y, width, height);
    warpArgmax(planes, w, h, grid, long, x, y, width, height);
    expect(short).toEqual(long);
  }
});
