import { expect, test } from 'vitest';
import {
  blankMask,
  complement,
  type DrawIn,
  equal,
  inkCount,
  type Mask,
  NO_DISC,
} from '../../../core/raster/index.ts';
import { drawInFast } from '../../../core/raster/kernels/drawInFast.ts';
import { drawInPlain } from '../../../core/raster/kernels/drawInPlain.ts';
import { type Kernels, kernels } from '../../../core/raster/kernels/load.ts';
import { blobs, randomMask, stream, tidy } from './randomMask.ts';

const fast = kernels() as Kernels;

/** Any disc may take any point: more ways than a choke ever asks for. */
function randomRule(largest: number, random: () => number): DrawIn {
  const least = Uint16Array.from({ length: largest + 2 }, () =>
    random() < 0.2 ? NO_DISC : Math.floor(random() * (largest + 1)),
  );
  return { chokePx: random() * Math.sqrt(largest), largest, least, look: null };
}

function drawBoth(masks: readonly Mask[], how: DrawIn, from: number, to: number, name: string): Mask {
  const { width, height } = masks[0]!;
  const [a, b] = [blankMask(width, height), blankMask(width, height)];
  drawInFast(fast, masks, from, to, how, a);
  drawInPlain(masks, from, to, how, b);
  expect(equal(a, b), name).toBe(true);
  expect(tidy(a)).toBe(true);
  return a;
}

test('ink is drawn in by the kernel as by the plain twin, at every width to 130', () => {
  const random = stream(31);
  let kept = 0;
  for (let width = 1; width <= 130; width++) {
    const height = 1 + Math.floor(random() * 40);
    // A rule whose largest disc covers no point that is not deep anyway, so that the plain choke alone does not settle all.
    const how = randomRule([1, 2, 5, 13, 26, 50][width % 6]!, random);
    const dense = randomMask(width, height, [0.9, 0.97, 1][width % 3]!, width);
    const thin = complement(blobs(width, height, Math.ceil((width * height) / 400), width));
    for (const mask of [dense, thin, blankMask(width, height)]) {
      const name = `${width} × ${height}, discs to √${how.largest}`;
      const all = drawBoth([mask], withoutWhole(how), 0, height, name);
      const [from, to] = [Math.floor(height / 3), Math.ceil((2 * height) / 3)];
      drawBoth([mask, thin], withoutWhole(how), from, to, name);
      kept += inkCount(all);
    }
  }
  expect(kept).toBeGreaterThan(10_000);
});

/** The kernel looks no more at points that the largest disc covers: the rule must let that take them all. */
const withoutWhole = (how: DrawIn): DrawIn => ({
  ...how,
  least: how.least.map((bound, n) => (n > how.chokePx ** 2 + 1e-9 ? bound : Math.min(bound, how.largest))),
});

test('several bands of wide masks are drawn in alike by both, to the borders', () => {
  for (const [width, height, largest] of [
    [4100, 200, 40],
    [700, 900, 20],
  ] as const) {
    const random = stream(width);
    const how = withoutWhole(randomRule(largest, random));
    const mask = complement(blobs(width, height, width, 3));
    expect(inkCount(drawBoth([mask], how, 0, height, `${width} × ${height}`))).toBeGreaterThan(1000);
  }
});
