import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import {
  blueNoiseTile,
  getBit,
  type Mask,
  screenTile,
  type ThresholdTile,
  thresholdMask,
} from '../../core/raster/index.ts';

const PYTHON = '/usr/bin/python3';
const SCRIPT = fileURLToPath(new URL('tintSpectrum.py', import.meta.url));
const present = spawnSync(PYTHON, ['-c', 'import numpy'], { stdio: 'ignore' }).status === 0;
if (!present) console.warn('Skipped: waves in flat tints by numpy; python3-numpy is not installed.');

const SIDE = 512;
const TINTS = [5, 20, 50, 80] as const;
const ANGLES = [0, 15, 22.5, 45, 62.5, 75, 90] as const;
/** Waves are told as coarser than the screen below this share of its ruling: nearer to it they are its own width. */
const BELOW = 0.75;
/** Waves of this share of the ruling and coarser are what an eye at arm's length sees best. */
const COARSE = 0.5;
/**
 * Amplitudes, as shares of full ink, that a coarser wave may have. Dots set on whole points jitter by part of a point, which no screen
 * of so few points avoids: at 600 dpi that is about two hundredths close to the ruling, itself a wave of 0.2 to 0.5. An eye
 * sees a wave of about one hundredth at best (contrast sensitivity of about 100 at 10 waves a degree, from memory).
 */
const MOST_NEAR = { 600: 0.0225, 1200: 0.01 } as const;
const MOST_COARSE = { 600: 0.0135, 1200: 0.0075 } as const;
/** The even grain repeats every 64 points: of that no wave coarser than ten points may show. */
const GRAIN = [
  { limit: 0.1, most: 0.008 },
  { limit: 0.05, most: 0.005 },
] as const;

interface Limit {
  readonly limit: number;
  readonly most: number;
}
interface Tint {
  readonly name: string;
  readonly tile: ThresholdTile;
  readonly percent: number;
  /** Below each limit, in cycles a point, the most that a wave may have. */
  readonly limits: readonly [Limit, Limit];
}

function bytesOf(mask: Mask): Buffer {
  const bytes = Buffer.alloc(SIDE * SIDE);
  for (let y = 0; y < SIDE; y++)
    for (let x = 0; x < SIDE; x++) if (getBit(mask, x, y)) bytes[y * SIDE + x] = 1;
  return bytes;
}

/** The strongest wave of each tint below each of its limits: amplitude and frequency. */
function strongest(tints: readonly Tint[]): [number, number][][] {
  const squares = tints.map(({ tile, percent }) => {
    const data = new Uint8Array(SIDE * SIDE).fill(Math.round(2.55 * percent));
    return bytesOf(thresholdMask({ width: SIDE, height: SIDE, data }, tile));
  });
  const limits = tints.flatMap((tint) => tint.limits.map(({ limit }) => limit));
  const { stdout } = spawnSync(PYTHON, [SCRIPT], {
    input: Buffer.concat([Buffer.from(`${SIDE} ${tints.length} ${limits.join(' ')}\n`), ...squares]),
    maxBuffer: 1 << 24,
  });
  const lines = stdout.toString().trim().split('\n');
  return lines.map((line) => {
    const [a, f, b, g] = line.split(' ').map(Number) as [number, number, number, number];
    return [
      [a, f],
      [b, g],
    ];
  });
}

/** Holds all tints to their limits, and returns the strongest waves there were. */
function held(tints: readonly Tint[]): [number, number] {
  const worst: [number, number] = [0, 0];
  const waves = strongest(tints);
  expect(waves).toHaveLength(tints.length);
  waves.forEach((found, i) => {
    const { name, limits } = tints[i]!;
    found.forEach(([amplitude, frequency], n) => {
      // Only a number may pass: anything else would be below every limit.
      expect(amplitude, name).toBeGreaterThan(0);
      expect(amplitude, `${name}, ${frequency} cycles a point`).toBeLessThanOrEqual(limits[n]!.most);
      worst[n] = Math.max(worst[n]!, amplitude);
    });
  });
  return worst;
}

for (const dpi of [600, 1200] as const)
  test.skipIf(!present)(
    `flat tints at ${dpi} dpi have no waves coarser than their rulings at any angle`,
    () => {
      const lines: string[] = [];
      for (const dot of ['round', 'elliptical', 'line'] as const) {
        const made = [35, 45, 55].flatMap((lpi) =>
          ANGLES.flatMap((angle) => {
            const tile = screenTile({ dpi, lpi, angle, dot });
            const limits: Tint['limits'] = [
              { limit: (BELOW * tile.lpi) / dpi, most: MOST_NEAR[dpi] },
              { limit: (COARSE * tile.lpi) / dpi, most: MOST_COARSE[dpi] },
            ];
            return TINTS.map((percent) => ({
              name: `${dot}, ${lpi} lpi, ${angle}°, ${percent} %`,
              tile,
              percent,
              limits,
            }));
          }),
        );
        const [near, coarse] = held(made);
        lines.push(`| ${dot} | ${made.length} | ${near.toFixed(4)} | ${coarse.toFixed(4)} |`);
      }
      console.log(
        [
          `| dots at ${dpi} dpi | tints | strongest wave coarser than the ruling | than half of it |`,
          '|---|---:|---:|---:|',
          ...lines,
        ].join('\n'),
      );
    },
    120_000,
  );

test.skipIf(!present)('the even grain of index dots does not show that its tile repeats', () => {
  const tile = blueNoiseTile();
  const tints = TINTS.map((percent) => ({ name: `even grain, ${percent} %`, tile, percent, limits: GRAIN }));
  const [ten, twenty] = held(tints);
  console.log(
    `even grain: strongest wave coarser than ten points ${ten.toFixed(4)}, than twenty ${twenty.toFixed(4)}`,
  );
});

test.skipIf(!present)('a tile of cells that are not alike is found out', () => {
  // Every other dot is larger: a wave at half the ruling.
  const tile = screenTile({ dpi: 600, lpi: 60, angle: 0, dot: 'round' });
  const data = Uint8Array.from({ length: 20 * 10 }, (_, i) => {
    const [x, y] = [i % 20, Math.floor(i / 20)];
    return tile.data[y * tile.width + (x % 10)]! + (x < 10 ? 0 : 40);
  });
  const none = { limit: 0.085, most: 1 };
  const tint = { name: '', tile: { width: 20, height: 10, shift: 0, data }, percent: 50 };
  const [[wave]] = strongest([{ ...tint, limits: [none, none] }]) as [[[number, number]]];
  expect(wave[0]).toBeGreaterThan(0.03);
  expect(wave[1]).toBeCloseTo(0.05, 2);
});
