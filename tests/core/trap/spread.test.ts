import { describe, expect, test } from 'vitest';
import {
  blankMask,
  complement,
  draw,
  equal,
  getBit,
  grow,
  inkCount,
  intersect,
  joined,
  type Mask,
  maskOf,
  setBit,
  subtract,
} from '../../../core/raster/index.ts';
import { type PairRule, trapInk } from '../../../core/trap/index.ts';
import { type LabelMap, numbers, randomLabels, separationsOf } from './labelMap.ts';

/** Masks here are drawn at 25.4 dpi, so that a width in mm is one in points. */
const DPI = 25.4;
const rule = (spreads: number, under: number, widthMm: number): PairRule => ({
  spreads,
  under,
  widthMm,
  why: '',
  overridden: false,
});

/** Every pair once, either way round, with a real width from 0 to 5 points. */
function randomRules(inks: number, seed: number): PairRule[] {
  const next = numbers(seed);
  const rules: PairRule[] = [];
  for (let i = 0; i < inks; i++)
    for (let j = i + 1; j < inks; j++) {
      const width = next() < 0.1 ? 0 : next() < 0.5 ? 1 + Math.floor(next() * 4) : next() * 5;
      rules.push(next() < 0.5 ? rule(i, j, width) : rule(j, i, width));
    }
  return rules;
}

/**
 * T_i by its formula on single points: distances by trying every point of R_i, joinedness by walking from R_i, step by step
 * to eight and to four neighbours by turns, two steps more than the width.
 * Returns the set of points as flags.
 */
function byFormula(map: LabelMap, ink: number, rules: readonly PairRule[], keepOut: Mask | null): Uint8Array {
  const { width, height, labels } = map;
  const own: number[] = [];
  for (let i = 0; i < labels.length; i++) if (labels[i] === ink) own.push(i);
  const result = new Uint8Array(labels.length);
  for (const i of own) result[i] = 1;
  for (const { spreads, under, widthMm } of rules) {
    if (spreads !== ink) continue;
    const candidate = new Uint8Array(labels.length);
    for (let i = 0; i < labels.length; i++) {
      if (labels[i] !== under) continue;
      const [x, y] = [i % width, Math.floor(i / width)];
      if (keepOut && getBit(keepOut, x, y)) continue;
      const near = own.some(
        (o) => ((o % width) - x) ** 2 + (Math.floor(o / width) - y) ** 2 <= widthMm ** 2 + 1e-9,
      );
      if (near) candidate[i] = 1;
    }
    let reached = new Set(own);
    for (let step = 1; step <= Math.ceil(widthMm) + 2; step++) {
      const further = new Set(reached);
      for (const i of reached) {
        const [x, y] = [i % width, Math.floor(i / width)];
        for (let dy = -1; dy <= 1; dy++)
          for (let dx = -1; dx <= 1; dx++) {
            const [px, py] = [x + dx, y + dy];
            if (px < 0 || py < 0 || px >= width || py >= height) continue;
            if (step % 2 === 0 && dx !== 0 && dy !== 0) continue;
            const n = py * width + px;
            if (!candidate[n]) continue;
            further.add(n);
            result[n] = 1;
          }
      }
      reached = further;
    }
  }
  return result;
}

const same = (mask: Mask, flags: Uint8Array) => {
  if (inkCount(mask) !== flags.reduce((sum, flag) => sum + flag, 0)) return false;
  for (let i = 0; i < flags.length; i++)
    if (flags[i] && !getBit(mask, i % mask.width, Math.floor(i / mask.width))) return false;
  return true;
};

describe('traps by their formula, point by point', () => {
  test.each([2, 3, 4, 5, 6, 7])('600 random maps of %d inks', (inks) => {
    let added = 0;
    for (let n = 0; n < 600; n++) {
      const seed = inks * 10_000 + n;
      const map = randomLabels(20 + (n % 61), 12 + (n % 13), inks, seed);
      const separations = separationsOf(map);
      const rules = randomRules(inks, seed);
      const keepOut =
        n % 3 === 0 ? separationsOf(randomLabels(map.width, map.height, 3, seed + 7))[1]! : null;
      const ink = n % inks;
      const print = trapInk(separations, ink, rules, DPI, keepOut);
      if (!same(print, byFormula(map, ink, rules, keepOut))) expect.fail(`map with seed ${seed}, ink ${ink}`);
      added += inkCount(print) - inkCount(separations[ink]!);
      for (let i = 0; i < map.labels.length; i++)
        if (map.labels[i] === -1 && getBit(print, i % map.width, Math.floor(i / map.width)))
          expect.fail(`bare wood inked, seed ${seed}`);
    }
    // The maps do make traps: a test of nothing would pass too.
    expect(added).toBeGreaterThan(5000);
  });
});

describe('what traps do', () => {
  const yellow = maskOf('....... / ###.... / ###.... / ###.... / .......');
  const blue = maskOf('....... / ...##.. / ...##.. / ...##.. / .......');

  test('an ink runs under its neighbour and never onto bare wood', () => {
    expect(draw(trapInk([yellow, blue], 0, [rule(0, 1, 1)], DPI, null))).toBe(
      '....... / ####... / ####... / ####... / .......',
    );
    expect(draw(trapInk([yellow, blue], 0, [rule(0, 1, 5)], DPI, null))).toBe(
      '....... / #####.. / #####.. / #####.. / .......',
    );
  });

  test('the ink that is spread into stays as it is', () => {
    expect(equal(trapInk([yellow, blue], 1, [rule(0, 1, 2)], DPI, null), blue)).toBe(true);
  });

  test('a width of 0 keeps the two butted', () => {
    expect(equal(trapInk([yellow, blue], 0, [rule(0, 1, 0)], DPI, null), yellow)).toBe(true);
  });

  test('nothing is added on a keep-out, and nothing of the ink’s own is taken', () => {
    const keepOut = maskOf('....... / ..####. / ....... / ....... / .......');
    expect(draw(trapInk([yellow, blue], 0, [rule(0, 1, 1)], DPI, keepOut))).toBe(
      '....... / ###.... / ####... / ####... / .......',
    );
  });

  test('ink does not leap over bare wood or over a third ink', () => {
    const far = maskOf('....... / .....## / .....## / .....## / .......');
    expect(equal(trapInk([yellow, far], 0, [rule(0, 1, 6)], DPI, null), yellow)).toBe(true);
    expect(draw(trapInk([yellow, far, blue], 0, [rule(0, 1, 6)], DPI, null))).toBe(draw(yellow));
  });

  test('across a narrow gap no sliver is left, though the other ink leads around its end', () => {
    // A bare slot two points high between yellow above and blue below; blue leads round the slot’s right end.
    const [above, below] = [blankMask(60, 20), blankMask(60, 20)];
    for (let x = 0; x < 60; x++) {
      for (let y = 0; y < 5; y++) setBit(x < 40 ? above : below, x, y);
      for (let y = 5; y < 7; y++) if (x >= 40) setBit(below, x, y);
      for (let y = 7; y < 20; y++) setBit(below, x, y);
    }
    const print = trapInk([above, below], 0, [rule(0, 1, 5)], DPI, null);
    // The disc of 5 reaches over the slot into three rows of blue all along it.
    let beyond = 0;
    for (let y = 7; y < 20; y++) for (let x = 0; x < 60; x++) if (getBit(print, x, y)) beyond++;
    for (let y = 7; y < 20; y++) for (let x = 0; x < 32; x++) expect(getBit(print, x, y)).toBe(false);
    // By the slot’s end ink runs round it, no further than the width.
    expect(beyond).toBeGreaterThan(0);
    expect(getBit(print, 44, 2)).toBe(true);
    expect(getBit(print, 45, 2)).toBe(false);
    expect(inkCount(joined(above, intersect(grow(above, 5), below)))).toBeGreaterThan(3 * 30);
  });

  test('a gap no longer than the trap is gone round, as ink would run', () => {
    const above = maskOf('#######.... / ........... / ###########');
    const below = maskOf('.......#### / .......#### / ...........');
    expect(draw(trapInk([above, below], 0, [rule(0, 1, 3)], DPI, null))).toContain('/ .......##');
  });

  test('in the open every point within the width is reached', () => {
    for (const width of [1, 2.5, 4, 7.3, 11.9]) {
      const own = blankMask(60, 60);
      setBit(own, 30, 30);
      const other = subtract(complement(blankMask(60, 60)), own);
      let within = 0;
      for (let y = 0; y < 60; y++)
        for (let x = 0; x < 60; x++) if ((x - 30) ** 2 + (y - 30) ** 2 <= width ** 2) within++;
      expect(inkCount(trapInk([own, other], 0, [rule(0, 1, width)], DPI, null))).toBe(within);
    }
  });

  test('under a key line thinner than twice the trap both neighbours meet', () => {
    const left = maskOf('###........ / ###........ / ###........');
    const line = maskOf('...#####... / ...#####... / ...#####...');
    const right = maskOf('........### / ........### / ........###');
    const rules = [rule(0, 1, 3), rule(2, 1, 3)];
    const all = [left, line, right];
    expect(draw(trapInk(all, 0, rules, DPI, null))).toBe('######..... / ######..... / ######.....');
    expect(draw(trapInk(all, 2, rules, DPI, null))).toBe('.....###### / .....###### / .....######');
  });

  test('a stopped run ends early', () => {
    const stopped = trapInk([yellow, blue], 0, [rule(0, 1, 1)], DPI, null, { aborted: true });
    expect(equal(stopped, yellow)).toBe(true);
  });
});
