import { linearOfHex } from '../../core/colour/index.ts';
import type { Picture } from '../../core/raster/index.ts';
import { unmixPicture, unmixTable } from '../../core/separate/index.ts';
import { mixer } from '../../core/separate/nearestMixture.ts';

/**
 * Unmixing a shaded picture of 6000 × 1500 points on one thread, as `toneTasks` does it, in milliseconds by the clock and of
 * processor time: the palette's table, the picture by it, and the same by solving every point (worked out from a hundredth of them).
 */
const WIDTH = 6000;
const HEIGHT = 1500;
const TURNS = 5;
const BARE = '#dcb98a';
const HEXES = ['#f7f3e8', '#f2b632', '#e8613c', '#2f8f83', '#1b2440', '#8a3f6b', '#6fa8dc', '#3b3b3b'];

/** Smooth slopes of colour with a little grain: neither one colour nor noise. */
function shaded(): Picture {
  const data = new Uint8Array(WIDTH * HEIGHT * 4);
  let seed = 1;
  for (let y = 0, at = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++, at += 4) {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      const grain = (seed >>> 27) - 16;
      for (let c = 0; c < 3; c++)
        data[at + c] = Math.max(
          0,
          Math.min(255, 128 + 110 * Math.sin(x / (190 + 70 * c) + y / (310 - 60 * c)) + grain),
        );
      data[at + 3] = 255;
    }
  return { width: WIDTH, height: HEIGHT, data };
}

/** Milliseconds by the clock and of processor time. */
interface Spent {
  readonly clock: number;
  readonly processor: number;
}
function spent(work: () => void): Spent {
  const before = process.cpuUsage();
  const start = performance.now();
  work();
  const clock = performance.now() - start;
  const { user, system } = process.cpuUsage(before);
  return { clock, processor: (user + system) / 1000 };
}
const middle = (turns: Spent[]): Spent => {
  const of = (pick: (turn: Spent) => number) =>
    turns.map(pick).sort((a, b) => a - b)[Math.floor(turns.length / 2)] as number;
  return { clock: of((turn) => turn.clock), processor: of((turn) => turn.processor) };
};
const both = ({ clock, processor }: Spent) => `${clock.toFixed(0)} (${processor.toFixed(0)})`;

const picture = shaded();
console.log(
  '| inks | table, ms by the clock (of processor time) | picture | both | point by point, processor time | ratio |\n|---:|---:|---:|---:|---:|---:|',
);
for (const count of [4, 6, 8]) {
  const palette = { bare: linearOfHex(BARE), inks: HEXES.slice(0, count).map(linearOfHex) };
  let table = unmixTable(palette);
  const made = middle(
    Array.from({ length: TURNS }, () =>
      spent(() => {
        table = unmixTable(palette);
      }),
    ),
  );
  const spread = middle(Array.from({ length: TURNS }, () => spent(() => unmixPicture(picture, table))));
  const solver = mixer([palette.bare, ...palette.inks]);
  const shares = new Float64Array(count + 1);
  const single =
    100 *
    spent(() => {
      for (let at = 0; at < picture.data.length; at += 400)
        solver.solveSeen(
          (picture.data[at]! / 255) ** 2.2,
          (picture.data[at + 1]! / 255) ** 2.2,
          (picture.data[at + 2]! / 255) ** 2.2,
          shares,
        );
    }).processor;
  const sum = { clock: made.clock + spread.clock, processor: made.processor + spread.processor };
  console.log(
    `| ${count} | ${both(made)} | ${both(spread)} | ${both(sum)} | ${single.toFixed(0)} | ${(single / sum.processor).toFixed(1)} × |`,
  );
}
