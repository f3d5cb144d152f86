import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { screenAngle } from '../../core/job/index.ts';
import { adviseMesh, beatsOf } from '../../core/press/index.ts';
import { blueNoiseTile, draw, errorDiffuse, screenTile, tonesOfDot } from '../../core/raster/index.ts';
import { printedTone } from '../../core/separate/index.ts';

/** The trade's figures for screens of dots, each with its source in the file, against what the program makes. */
const RULES = JSON.parse(readFileSync(new URL('halftone/halftone.json', import.meta.url), 'utf8')) as {
  readonly greyLevels: { readonly dpiLpiLevelsWhole: readonly [number, number, number, number][] };
  readonly angledCells: {
    readonly abAngleLevelsLpi600Lpi1200: readonly [number, number, number, number, number, number][];
  };
  readonly meshToRuling: {
    readonly threadsLinesRatio: readonly [number, number, number][];
    readonly inchThreadsLpiRatio: readonly [number, number, number][];
  };
  readonly angles: { readonly degrees: readonly number[] };
  readonly filmToPrint: { readonly film: readonly number[]; readonly printed: readonly number[] };
  readonly moireLines: {
    readonly perCmPerCmDegBeatPerCm: readonly [number, number, number, number][];
    readonly perInchPerInchDegBeat: readonly [number, number, number, number][];
  };
  readonly floydSteinberg: {
    readonly weights: Readonly<Record<'ahead' | 'belowBehind' | 'below' | 'belowAhead' | 'of', number>>;
    readonly worked: readonly {
      readonly input: string;
      readonly turns: boolean;
      readonly output: readonly string[];
    }[];
  };
  readonly voidAndCluster: { readonly principalFrequency: readonly [number, number][] };
};

/** How many different amounts of ink the 256 levels of a byte give on a tile. */
const tonesOf = (data: Uint8Array): number => new Set(data).size + 1;

describe('grey levels and rulings', () => {
  test('a dot holds (dpi / lpi)² + 1 tones, on all forty printers and rulings', () => {
    expect(RULES.greyLevels.dpiLpiLevelsWhole).toHaveLength(40);
    for (const [dpi, lpi, levels, whole] of RULES.greyLevels.dpiLpiLevelsWhole) {
      expect(tonesOfDot(dpi, lpi), `${lpi} lpi at ${dpi} dpi`).toBeCloseTo(levels, 2);
      expect(Math.floor(dpi / lpi) ** 2 + 1).toBe(whole);
    }
  });

  test('screens give as many tones as a dot holds, and no fewer where cells fall between points', () => {
    for (const [dpi, lpi, levels, whole] of RULES.greyLevels.dpiLpiLevelsWhole) {
      if (dpi > 1200) continue;
      const tile = screenTile({ dpi, lpi, angle: 0, dot: 'round' });
      const name = `${lpi} lpi at ${dpi} dpi`;
      // A byte tells 256 tones apart.
      if (Number.isInteger(dpi / lpi)) {
        expect(tile.data.length, name).toBe(whole - 1);
        expect(tonesOf(tile.data), name).toBe(Math.min(256, whole));
      } else expect(tonesOf(tile.data), name).toBeGreaterThanOrEqual(Math.min(256, Math.floor(levels)));
    }
  });

  test('a cell with a tilted edge of whole points has its angle, its ruling and its tones', () => {
    const cells = RULES.angledCells.abAngleLevelsLpi600Lpi1200;
    expect(cells).toHaveLength(12);
    for (const [a, b, angle, levels, at600, at1200] of cells)
      for (const [dpi, lpi] of [
        [600, at600],
        [1200, at1200],
      ] as const) {
        const tile = screenTile({ dpi, lpi, angle, dot: 'round' });
        const name = `${a}, ${b} at ${dpi} dpi`;
        expect(tile.data.length, name).toBe(levels - 1);
        expect(tile.angle, name).toBeCloseTo(angle, 5);
        expect(Math.abs(tile.lpi / lpi - 1), name).toBeLessThan(1e-5);
        expect(tonesOf(tile.data), name).toBe(Math.min(256, levels));
      }
    // Published: 60 lines at 45° on a 300 dpi printer are really 53 with 33 levels. Cells set together come to 60 after all.
    const alone = screenTile({ dpi: 300, lpi: 53.03301, angle: 45, dot: 'round' });
    expect([alone.data.length + 1, Math.round(alone.lpi)]).toEqual([33, 53]);
    expect(Math.abs(screenTile({ dpi: 300, lpi: 60, angle: 45, dot: 'round' }).lpi / 60 - 1)).toBeLessThan(
      0.005,
    );
  });
});

describe('mesh, angles and moiré', () => {
  const advised = (countPerCm: number, lpi: number): boolean => {
    const chosen = { countPerCm, threadUm: 34 };
    const advice = adviseMesh({ line: null, gap: null, kind: 'opaque', lpi, chosen });
    if (!advice.ok) throw new Error(advice.reason);
    return advice.value.result.chosen.holdsRuling;
  };

  test('ratios of threads to lines are those of the published examples, and four is asked for', () => {
    for (const [threads, lines, ratio] of RULES.meshToRuling.threadsLinesRatio)
      expect(threads / lines).toBeCloseTo(ratio, 9);
    for (const [threads, lpi, ratio] of RULES.meshToRuling.inchThreadsLpiRatio)
      expect(threads / lpi).toBeCloseTo(ratio, 9);
    // 120 threads a cm: 30 lines a cm are 4 threads a line, 32 are 3.75.
    expect(advised(120, 30 * 2.54)).toBe(true);
    expect(advised(120, 32 * 2.54)).toBe(false);
  });

  test('inks get the shifted set of angles, the single colour 22.5°', () => {
    const inks = ['a', 'b', 'c', 'd'].map((id) => ({ id, role: 'colour' }));
    const given = inks.map((_, at) => screenAngle({ inks } as never, at));
    expect([...given].sort((a, b) => a - b)).toEqual(RULES.angles.degrees);
    expect(given[0]).toBe(22.5);
  });

  test('two line screens beat as the cosine rule says', () => {
    const { perCmPerCmDegBeatPerCm, perInchPerInchDegBeat } = RULES.moireLines;
    const inCm = perInchPerInchDegBeat.map(
      ([f1, f2, angle, beat]) => [f1 / 2.54, f2 / 2.54, angle, beat / 2.54] as const,
    );
    for (const [f1, f2, angle, beat] of [...perCmPerCmDegBeatPerCm, ...inCm]) {
      // Lines alone: the first order of each along its own direction.
      const found = beatsOf({ meshPerCm: f1, meshAngleDeg: 0, lpi: f2 * 2.54, screenAngleDeg: angle }).find(
        ({ meshOrder: [m1, m2], screenOrder: [h1, h2] }) => m1 === -1 && m2 === 0 && h1 === -1 && h2 === 0,
      );
      expect(found?.perCm, `${f1} and ${f2} at ${angle}°`).toBeCloseTo(beat, 5);
    }
  });
});

test('a press that prints as the published curve does is taken out of the films', () => {
  const { film, printed } = RULES.filmToPrint;
  const patches = film.map((tone, i) => ({ film: tone / 100, printed: printed[i]! / 100 }));
  const curve = printedTone({ patches });
  for (const patch of patches) expect(curve(patch.film)).toBeCloseTo(patch.printed, 9);
});

describe('error diffusion by the weights of 1976', () => {
  const WIDTH = 8;
  const HEIGHT = 4;
  const rows = (level: (x: number) => number) =>
    Array.from({ length: HEIGHT }, () => Array.from({ length: WIDTH }, (_, x) => level(x)));
  const eighths = (input: string) => rows((x) => (input === 'x/8' ? x : 2));

  /**
   * Levels, `whole` of them full, in exact fractions: whole numbers of 16⁻⁴⁰ levels. What would fall beside the image is lost, or
   * `kept`: it goes straight down.
   */
  function exact(
    levels: readonly (readonly number[])[],
    whole: number,
    turns: boolean,
    kept = false,
  ): string[] {
    const { weights } = RULES.floydSteinberg;
    const unit = 16n ** 40n;
    const full = BigInt(whole) * unit;
    const values = levels.map((row) => row.map((level) => BigInt(level) * unit));
    return values.map((row, y) => {
      const back = turns && y % 2 === 1;
      const step = back ? -1 : 1;
      const out = Array.from({ length: WIDTH }, () => '.');
      for (let k = 0; k < WIDTH; k++) {
        const x = back ? WIDTH - 1 - k : k;
        const ink = 2n * row[x]! >= full;
        if (ink) out[x] = '#';
        const error = row[x]! - (ink ? full : 0n);
        for (const [dx, dy, weight] of [
          [1, 0, weights.ahead],
          [-1, 1, weights.belowBehind],
          [0, 1, weights.below],
          [1, 1, weights.belowAhead],
        ] as const) {
          const share = (error * BigInt(weight)) / BigInt(weights.of);
          const to = values[y + dy];
          if (to?.[x + dx * step] !== undefined) to[x + dx * step]! += share;
          else if (kept && values[y + 1]) values[y + 1]![x]! += share;
        }
      }
      return out.join('');
    });
  }

  test('the worked images come out of the weights as they stand in the file', () => {
    for (const { input, turns, output } of RULES.floydSteinberg.worked)
      expect(exact(eighths(input), 8, turns), `${input}, ${turns}`).toEqual(output);
  });

  test('the program diffuses the worked ramp, and every tint, in turns as exact fractions do', () => {
    const byteOf = (eighth: number) => Math.round((255 * eighth) / 8);
    const program = (levels: readonly (readonly number[])[]) =>
      draw(errorDiffuse({ width: WIDTH, height: HEIGHT, data: Uint8Array.from(levels.flat()) })).split(' / ');
    const ramp = RULES.floydSteinberg.worked.find(({ input, turns }) => input === 'x/8' && turns)!;
    expect(program(eighths('x/8').map((row) => row.map(byteOf)))).toEqual(ramp.output);
    // The program counts whole sixteenths of a level and loses none at the borders: two points in a thousand may differ.
    let other = 0;
    for (let level = 0; level <= 255; level++) {
      const tint = rows(() => level);
      const plain = exact(tint, 255, true, true).join('');
      other += [...program(tint).join('')].filter((sign, i) => sign !== plain[i]).length;
    }
    expect(other).toBeLessThanOrEqual((2 * 256 * WIDTH * HEIGHT) / 1000);
  });
});

describe('blue noise by void-and-cluster', () => {
  const { width, data } = blueNoiseTile();
  /** The first points to be inked, by rank: thresholds are ranks in 255 steps. */
  const inked = (share: number) =>
    [...data.keys()]
      .filter((i) => data[i]! <= Math.round(255 * share))
      .map((i) => [i % width, Math.floor(i / width)] as const);

  test('each level inks its count, and the mean of the thresholds is one half', () => {
    for (const [share] of RULES.voidAndCluster.principalFrequency)
      expect(Math.abs(inked(share).length / data.length - Math.round(255 * share) / 255)).toBeLessThanOrEqual(
        1 / data.length,
      );
    const mean = data.reduce((sum, v) => sum + v - 1, 0) / data.length / 254;
    expect(mean).toBeCloseTo(0.5, 2);
  });

  test('the first points keep apart by more than half of the mean spacing, over the tile’s borders too', () => {
    const points = inked(1 / 16);
    const spacing = width / Math.sqrt(points.length);
    // The principal frequency is the count a unit of length.
    const [, frequency] = RULES.voidAndCluster.principalFrequency.find(([share]) => share === 0.0625)!;
    expect(1 / spacing).toBeCloseTo(frequency, 1);
    const torus = (d: number) => Math.min(Math.abs(d), width - Math.abs(d));
    const nearest = points.map(([x, y], i) =>
      Math.min(...points.map(([u, v], j) => (i === j ? Infinity : Math.hypot(torus(x - u), torus(y - v))))),
    );
    expect(nearest.filter((d) => d > spacing / 2).length / nearest.length).toBeGreaterThan(0.98);
  });
});
