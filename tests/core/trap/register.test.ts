import { describe, expect, test } from 'vitest';
import { blankMask, getBit, inkCount, type Mask, setBit, union } from '../../../core/raster/index.ts';
import {
  drawPullError,
  learnTolerance,
  type PullError,
  randomStream,
  registerCurve,
  screenOffset,
  showRegister,
  simulateRegister,
  trapInk,
} from '../../../core/trap/index.ts';
import { numbers, randomLabels, separationsOf } from './labelMap.ts';

/** A point a mm, so that mm² are points. */
const DPI = 25.4;
const still: PullError = { dx: 0, dy: 0, turnRad: 0 };

const box = (width: number, height: number, x0: number, y0: number, x1: number, y1: number): Mask => {
  const mask = blankMask(width, height);
  for (let y = y0; y < y1; y++) for (let x = x0; x < x1; x++) setBit(mask, x, y);
  return mask;
};

/** Two inks that meet on a vertical line in the middle of a bare ground, and all of both. */
const pair = () => {
  const left = box(100, 60, 10, 10, 50, 50);
  const right = box(100, 60, 50, 10, 90, 50);
  return { left, right, wanted: union(left, right) };
};
const INTO_RIGHT = { spreads: 0, under: 1, why: '', overridden: false };

describe('one error at a time', () => {
  test('butted inks pulled 3 mm apart show a gap 3 mm wide along their border', () => {
    const { left, right, wanted } = pair();
    const shown = showRegister([left, right], wanted, [still, { ...still, dx: 3 }], {
      toleranceMm: 4,
      dpi: DPI,
    });
    // 40 mm of border, less the strip beside bare wood: 4 mm and half a point’s diagonal at either end.
    expect(shown.woodMm2).toBe(3 * (40 - 2 * 4));
    expect(shown.widestMm).toBe(3);
    expect(shown.gaps.width).toBe(100);
  });

  test('a trap at least as wide as the error leaves none, one narrower leaves the difference', () => {
    const { left, right, wanted } = pair();
    for (const width of [0, 1, 2, 3, 4]) {
      const print = trapInk([left, right], 0, [{ ...INTO_RIGHT, widthMm: width }], DPI, null);
      const shown = showRegister([print, right], wanted, [still, { ...still, dx: 3 }], {
        toleranceMm: 4,
        dpi: DPI,
      });
      expect(shown.woodMm2).toBe(Math.max(0, 3 - width) * 32);
    }
  });

  test('a turn opens a wedge', () => {
    const left = box(400, 60, 0, 0, 400, 30);
    const right = box(400, 60, 0, 30, 400, 60);
    const wanted = union(left, right);
    const turned = showRegister([left, right], wanted, [still, { ...still, turnRad: 0.02 }], {
      toleranceMm: 4,
      dpi: DPI,
    });
    // Moved down to the right of the middle: a triangle 200 long and 4 high, less 4 mm at the right border.
    expect(turned.woodMm2).toBeGreaterThan(0.5 * 196 * 3.92 * 0.93);
    expect(turned.woodMm2).toBeLessThan(0.5 * 196 * 3.92 * 1.07);
  });

  test('a base peeks out where its ink moves off it, and is no fault in its own white', () => {
    const ink = box(100, 60, 30, 20, 70, 40);
    const own = box(100, 60, 5, 5, 20, 50);
    const base = union(box(100, 60, 32, 22, 68, 38), own);
    const show = (dx: number) =>
      showRegister([base, ink], union(ink, own), [still, { ...still, dx }], {
        toleranceMm: 5,
        dpi: DPI,
        base: { place: 0, own },
      });
    expect(show(2).baseMm2).toBe(0);
    expect(show(5).baseMm2).toBe(3 * 16);
    expect(show(5).widestMm).toBe(3);
  });

  test.each([1, 2, 3, 4, 5, 8, 9])('a gap %d points wide is measured as that', (gap) => {
    const left = box(160, 120, 0, 0, 60, 120);
    const right = box(160, 120, 60, 0, 160, 120);
    const options = { toleranceMm: 10, dpi: DPI };
    const shown = (errors: PullError[]) => showRegister([left, right], union(left, right), errors, options);
    expect(shown([still, { ...still, dx: gap }]).widestMm).toBe(gap);
  });

  test('random prints and shifts agree with laying single points over each other', () => {
    let shownAtAll = 0;
    for (let seed = 1; seed <= 150; seed++) {
      const next = numbers(seed);
      const map = randomLabels(70, 40, 4, seed);
      const separations = separationsOf(map);
      const wanted = separations.reduce((all, mask) => union(all, mask));
      const errors = separations.map(() => ({
        dx: Math.round(4 * next() - 2),
        dy: Math.round(4 * next() - 2),
        turnRad: 0,
      }));
      const shown = showRegister(separations, wanted, errors, { toleranceMm: 3, dpi: DPI });
      let expected = 0;
      for (let y = 0; y < 40; y++)
        for (let x = 0; x < 70; x++) {
          let counts = true;
          for (let oy = -3; oy <= 3 && counts; oy++)
            for (let ox = -3; ox <= 3; ox++)
              if (Math.hypot(ox, oy) <= 3 + Math.SQRT1_2 && !getBit(wanted, x + ox, y + oy)) counts = false;
          if (!counts) continue;
          if (!separations.some((mask, p) => getBit(mask, x - errors[p]!.dx, y - errors[p]!.dy))) {
            expected++;
            expect(getBit(shown.gaps, x, y)).toBe(true);
          }
        }
      expect(shown.woodMm2, `seed ${seed}`).toBeCloseTo(expected, 9);
      expect(inkCount(shown.gaps)).toBe(expected);
      shownAtAll += expected;
    }
    expect(shownAtAll).toBeGreaterThan(2000);
  });
});

describe('random errors', () => {
  test('both ends of a pull stay within the tolerance, and use all of it', () => {
    const next = randomStream(5);
    let [farthest, sumX, sumTurn] = [0, 0, 0];
    for (let n = 0; n < 4000; n++) {
      const { dx, dy, turnRad } = drawPullError(next, 0.5, 840);
      for (const end of [-420, 420]) {
        const off = Math.hypot(dx, dy + turnRad * end);
        expect(off).toBeLessThanOrEqual(0.5 + 1e-12);
        farthest = Math.max(farthest, off);
      }
      sumX += dx;
      sumTurn += turnRad;
    }
    expect(farthest).toBeGreaterThan(0.49);
    expect(Math.abs(sumX / 4000)).toBeLessThan(0.02);
    expect(Math.abs(sumTurn / 4000)).toBeLessThan(0.02 / 420);
  });

  test('no tolerance, no error', () => {
    expect(drawPullError(randomStream(1), 0, 800)).toEqual(still);
  });

  test('the stream is mulberry32', () => {
    // First numbers for seed 1, from memory of its public-domain listing.
    const next = randomStream(1);
    expect([next(), next(), next()]).toEqual([0.6270739405881613, 0.002735721180215478, 0.5274470399599522]);
  });
});

describe('the simulation', () => {
  const options = { toleranceMm: 3, trials: 200, seed: 11, dpi: DPI };

  test('the same seed gives the same result, another seed another', () => {
    const { left, right, wanted } = pair();
    const once = simulateRegister([left, right], wanted, options);
    expect(simulateRegister([left, right], wanted, options)).toEqual(once);
    expect(simulateRegister([left, right], wanted, { ...options, seed: 12 }).trialsMm2).not.toEqual(
      once.trialsMm2,
    );
    expect(once.trials).toBe(200);
    expect(once.areaMm2.p95).toBeGreaterThan(once.areaMm2.p50);
  });

  test('two pulls, each off by up to e, part by at most 2e: a trap of 2e leaves no wood', () => {
    // "2e in the worst case": computed for overlaps in general, see the trap widths test below.
    const { left, right, wanted } = pair();
    const print = trapInk([left, right], 0, [{ ...INTO_RIGHT, widthMm: 6 }], DPI, null);
    const whole = simulateRegister([print, right], wanted, options);
    // One point of rounding may remain of two offsets, each rounded to whole points.
    expect(whole.woodMm2.p95).toBe(0);
    const half = simulateRegister([left, right], wanted, options);
    expect(half.widestMm.p95).toBeGreaterThan(2);
    expect(half.widestMm.p95).toBeLessThanOrEqual(6);
  });

  test('the gap of two butted inks has the spread that its geometry gives', () => {
    // A long border: gap area = length × max(0, difference of two pulls' dy), with no turn for a raster of no length.
    const top = box(2000, 60, 0, 0, 2000, 30);
    const bottom = box(2000, 60, 0, 30, 2000, 60);
    const { trialsMm2 } = simulateRegister([top, bottom], union(top, bottom), { ...options, trials: 400 });
    const next = randomStream(99);
    const expected = Array.from({ length: 20000 }, () => {
      const a = drawPullError(next, 3, 2000);
      const b = drawPullError(next, 3, 2000);
      // Mean of max(0, linear) along the border from x = -997 to 997, by 40 steps.
      let sum = 0;
      for (let i = 0; i < 40; i++) {
        const x = -997 + (1994 * (i + 0.5)) / 40;
        sum += Math.max(0, b.dy - a.dy + (b.turnRad - a.turnRad) * x);
      }
      return (sum / 40) * 1994;
    });
    const mean = (values: readonly number[]) => values.reduce((s, v) => s + v, 0) / values.length;
    // 400 trials: the standard error of their mean is about 4 % of it.
    expect(Math.abs(mean(trialsMm2) / mean(expected) - 1)).toBeLessThan(0.15);
  });

  test('after a trap as wide as the tolerance, any one pull may move by it in 16 directions', () => {
    const separations = separationsOf(randomLabels(120, 90, 3, 42));
    const wanted = separations.reduce((all, mask) => union(all, mask));
    const rules = [
      { ...INTO_RIGHT, widthMm: 4 },
      { ...INTO_RIGHT, under: 2, widthMm: 4 },
      { ...INTO_RIGHT, spreads: 1, under: 2, widthMm: 4 },
    ];
    const trapped = separations.map((_, i) => trapInk(separations, i, rules, DPI, null));
    const worst = (prints: readonly Mask[]) => {
      let most = 0;
      for (let pull = 0; pull < 3; pull++)
        for (let way = 0; way < 16; way++) {
          const errors: PullError[] = [still, still, still];
          const turn = (way * Math.PI) / 8;
          errors[pull] = { dx: 3 * Math.cos(turn), dy: 3 * Math.sin(turn), turnRad: 0 };
          most = Math.max(most, showRegister(prints, wanted, errors, { toleranceMm: 3, dpi: DPI }).woodMm2);
        }
      return most;
    };
    expect(worst(trapped)).toBe(0);
    expect(worst(separations)).toBeGreaterThan(50);
  });

  test('it says how far it is and stops when asked', () => {
    const { left, right, wanted } = pair();
    const abort = { aborted: false };
    const said: number[] = [];
    const progress = (done: number) => {
      said.push(done);
      if (said.length === 5) abort.aborted = true;
    };
    const stopped = simulateRegister([left, right], wanted, { ...options, progress, abort });
    expect(stopped.trials).toBe(5);
    expect(said.at(-1)).toBeCloseTo(5 / 200);
  });
});

describe('gap against trap width', () => {
  const { left, right, wanted } = pair();
  const request = {
    wanted,
    toleranceMm: 3,
    trials: 120,
    seed: 3,
    dpi: DPI,
    widthsMm: [6, 0, 2, 4, 3, 1, 5],
    printsAt: (widthMm: number) => [
      trapInk([left, right], 0, [{ ...INTO_RIGHT, widthMm }], DPI, null),
      right,
    ],
  };

  test('it falls with the width, and the smallest width within the limit is recommended', () => {
    const { points, recommendedMm } = registerCurve({ ...request, limit: { areaMm2: 20 } });
    expect(points.map((point) => point.widthMm)).toEqual([0, 1, 2, 3, 4, 5, 6]);
    for (let i = 1; i < points.length; i++)
      expect(points[i]!.areaMm2.p95).toBeLessThanOrEqual(points[i - 1]!.areaMm2.p95);
    expect(recommendedMm).toBe(points.find((point) => point.areaMm2.p95 <= 20)!.widthMm);
    expect(recommendedMm).toBeGreaterThan(0);
  });

  test('with no width within the limit it recommends none', () => {
    expect(
      registerCurve({ ...request, widthsMm: [0, 1], limit: { widestMm: 0.5 } }).recommendedMm,
    ).toBeNull();
  });

  // Overlap two screens need, each off by up to e: 2e at worst, √2 e as root sum square (computed, common practice).
  test('the recommended width for one pull in twenty lies between e and 2e', () => {
    const { recommendedMm } = registerCurve({ ...request, limit: { widestMm: 0 } });
    expect(recommendedMm).toBeGreaterThanOrEqual(3);
    expect(recommendedMm).toBeLessThanOrEqual(6);
  });
});

describe('a printer’s own tolerance', () => {
  const along = (values: readonly number[]) => values.map((dx) => ({ dx, dy: 0 }));

  test('mean, spread and the 95th percentile of what one screen’s log says', () => {
    // dx 1 … 20 hundredths, dy 0: mean 10.5; the standard deviation of 1 … n is √(n(n+1)/12).
    const readings = along(Array.from({ length: 20 }, (_, i) => (i + 1) / 100));
    expect(screenOffset(readings).dx).toBeCloseTo(0.105, 12);
    const learned = learnTolerance([readings])!;
    expect(learned.deviation.dx).toBeCloseTo(Math.sqrt((20 * 21) / 12) / 100, 12);
    expect(learned.deviation.dy).toBe(0);
    // Distances from the mean are 0.005 … 0.095, each twice; the 19th of 20 is 0.095, widened by √(20/19).
    expect(learned.toleranceMm).toBeCloseTo(0.095 * Math.sqrt(20 / 19), 12);
  });

  test('how a screen sits is no wandering: screens set off by millimetres teach the same', () => {
    const one = along([0.1, 0.2, 0.3]);
    const other = along([0.1, 0.2, 0.3].map((dx) => dx + 4));
    const learned = learnTolerance([one, other])!;
    expect(learned).toMatchObject({ readings: 6, screens: 2 });
    expect(learned.deviation.dx).toBeCloseTo(0.1, 12);
    expect(learned.toleranceMm).toBeCloseTo(0.1 * Math.sqrt(3 / 2), 12);
  });

  test('from many small logs of a known hand the spread comes out', () => {
    // Readings uniform in ±0.6 mm: standard deviation 0.6/√3; pairs, so that half of the freedom goes to the means.
    const next = numbers(31);
    const screens = Array.from({ length: 3000 }, () => [
      { dx: 1.2 * next() - 0.6, dy: 1.2 * next() - 0.6 },
      { dx: 1.2 * next() - 0.6, dy: 1.2 * next() - 0.6 },
    ]);
    const { deviation } = learnTolerance(screens)!;
    expect(Math.abs(deviation.dx / (0.6 / Math.sqrt(3)) - 1)).toBeLessThan(0.04);
    expect(Math.abs(deviation.dy / (0.6 / Math.sqrt(3)) - 1)).toBeLessThan(0.04);
  });

  test('a screen read once says nothing of how it wanders', () => {
    expect(learnTolerance([along([0.3])])).toBeNull();
    expect(learnTolerance([])).toBeNull();
    expect(learnTolerance([along([0.3]), along([1, 1.2])])).toMatchObject({ readings: 2, screens: 1 });
  });
});
