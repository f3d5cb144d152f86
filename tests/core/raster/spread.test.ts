import { expect, test } from 'vitest';
import { blankMask, equal, inkCount, type Mask, subtract } from '../../../core/raster/index.ts';
import { type Kernels, kernels } from '../../../core/raster/kernels/load.ts';
import { spreadFast } from '../../../core/raster/kernels/spreadFast.ts';
import { type SpreadWay, spreadPlain } from '../../../core/raster/kernels/spreadPlain.ts';
import { blobs, randomMask, stream, tidy } from './randomMask.ts';

const fast = kernels() as Kernels;

function spreadBoth(
  seed: Mask,
  ways: readonly SpreadWay[],
  keepOut: Mask | null,
  from: number,
  to: number,
  name: string,
): number {
  const [a, b] = [blankMask(seed.width, seed.height), blankMask(seed.width, seed.height)];
  spreadFast(fast, seed, ways, keepOut, from, to, a);
  spreadPlain(seed, ways, keepOut, from, to, b);
  expect(equal(a, b), name).toBe(true);
  expect(tidy(a)).toBe(true);
  return inkCount(subtract(a, seed));
}

test('ink spreads by the kernel as by the plain twin, at every width to 130', () => {
  const random = stream(41);
  let added = 0;
  for (let width = 1; width <= 130; width++) {
    const height = 1 + Math.floor(random() * 40);
    for (const share of [0, 0.03, 0.4, 1]) {
      const seed = randomMask(width, height, share, width);
      const ways = [0.7, 1 + 3 * random(), 2 + 6 * random()].map((radius, i) => ({
        into: subtract(randomMask(width, height, [1, 0.6, 0.8][i]!, 3 * width + i), seed),
        radius,
        steps: Math.floor(random() * 9),
      }));
      const keepOut = share === 0.03 ? randomMask(width, height, 0.2, 7 * width) : null;
      const name = `${width} × ${height}, ${share}`;
      added += spreadBoth(seed, ways, keepOut, 0, height, name);
      spreadBoth(seed, ways, keepOut, Math.floor(height / 3), Math.ceil((2 * height) / 3), name);
      spreadBoth(seed, [], keepOut, 0, height, name);
    }
  }
  expect(added).toBeGreaterThan(20_000);
});

test('wide masks of several bands spread alike by both', () => {
  for (const [width, height, count] of [
    [9000, 1100, 900],
    [19370, 300, 300],
  ] as const) {
    const seed = blobs(width, height, count, 1);
    const into = subtract(blobs(width, height, 3 * count, 2), seed);
    const ways = [
      { into, radius: 3.5, steps: 6 },
      { into: subtract(randomMask(width, height, 0.97, 3), seed), radius: 7.1, steps: 10 },
    ];
    expect(spreadBoth(seed, ways, null, 0, height, `${width} × ${height}`)).toBeGreaterThan(1000);
  }
});
