import { expect, test } from 'vitest';
import { cheapestPath } from '../../../core/raster/index.ts';
import { stream } from './randomMask.ts';

/** Every path there is. */
function byBruteForce(cost: Uint8Array, width: number, height: number, turn: number): number {
  let best = Infinity;
  const walk = (x: number, y: number, step: number | null, sum: number) => {
    const here = sum + cost[y * width + x]!;
    if (y === height - 1) {
      best = Math.min(best, here);
      return;
    }
    for (const next of [-1, 0, 1])
      if (x + next >= 0 && x + next < width)
        walk(x + next, y + 1, next, here + (step === null ? 0 : turn * Math.abs(next - step)));
  };
  for (let x = 0; x < width; x++) walk(x, 0, null, 0);
  return best;
}

test('no path is cheaper, by trying all of them', () => {
  const next = stream(11);
  for (let i = 0; i < 150; i++) {
    const [width, height] = [1 + Math.floor(next() * 6), 1 + Math.floor(next() * 7)];
    const cost = Uint8Array.from({ length: width * height }, () => Math.floor(next() * 40));
    const turn = Math.floor(next() * 12);
    const path = cheapestPath(cost, width, height, turn);
    expect(path.cost).toBe(byBruteForce(cost, width, height, turn));
    let sum = 0;
    path.columns.forEach((x, y) => {
      sum += cost[y * width + x]!;
      if (y > 0) expect(Math.abs(x - path.columns[y - 1]!)).toBeLessThanOrEqual(1);
      if (y > 1) sum += turn * Math.abs(x - 2 * path.columns[y - 1]! + path.columns[y - 2]!);
    });
    expect(sum).toBe(path.cost);
  }
});

test('a gap between two shapes is found over a long band', () => {
  const [width, height] = [300, 10000];
  const cost = new Uint16Array(width * height).fill(500);
  for (let y = 0; y < height; y++) cost[y * width + 150 + Math.round(100 * Math.sin(y / 400))] = 1;
  const { columns, cost: total } = cheapestPath(cost, width, height, 2);
  expect(columns[4000]).toBe(150 + Math.round(100 * Math.sin(10)));
  expect(total).toBeLessThan(height * 4);
});

test('turns cost: a straight way wins over a crooked one of equal points', () => {
  const cost = new Uint8Array(5 * 9);
  expect([...cheapestPath(cost, 5, 9, 3).columns]).toEqual(Array(9).fill(0));
  expect(() => cheapestPath(cost, 0, 9)).toThrow(RangeError);
});
