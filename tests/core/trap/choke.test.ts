import { describe, expect, test } from 'vitest';
import {
  blankMask,
  components,
  draw,
  equal,
  getBit,
  inkCount,
  intersect,
  type Mask,
  maskOf,
  setBit,
  shrink,
  subtract,
  union,
} from '../../../core/raster/index.ts';
import { baseMask, chokeMask, holdOpen } from '../../../core/trap/index.ts';
import { numbers, randomLabels, separationsOf } from './labelMap.ts';

/** The points of the disc dx² + dy² ≤ n around the origin. */
const disc = (n: number) => {
  const points: [number, number][] = [];
  const reach = Math.floor(Math.sqrt(n));
  for (let dy = -reach; dy <= reach; dy++)
    for (let dx = -reach; dx <= reach; dx++) if (dx * dx + dy * dy <= n) points.push([dx, dy]);
  return points;
};

/**
 * The rule on single points: d by trying every bare point (and those beyond the border), τ by trying every disc of every
 * radius up to the first that is at least c + m/2.
 */
function byBruteForce(mask: Mask, choke: number, narrowest: number): Mask {
  const { width, height } = mask;
  const squares: number[] = [];
  for (let n = 0; ; n++) {
    let sum = false;
    for (let a = 0; a * a <= n; a++) if (Number.isInteger(Math.sqrt(n - a * a))) sum = true;
    if (!sum) continue;
    squares.push(n);
    if (Math.sqrt(n) >= choke + narrowest / 2 - 1e-9) break;
  }
  const tau = new Float64Array(width * height).fill(-1);
  for (const n of squares) {
    const offsets = disc(n);
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++) {
        if (!offsets.every(([dx, dy]) => getBit(mask, x + dx, y + dy))) continue;
        for (const [dx, dy] of offsets) tau[(y + dy) * width + x + dx] = Math.sqrt(n);
      }
  }
  const out = blankMask(width, height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      if (!getBit(mask, x, y)) continue;
      let d2 = Infinity;
      for (let by = -1; by <= height; by++)
        for (let bx = -1; bx <= width; bx++)
          if (!getBit(mask, bx, by)) d2 = Math.min(d2, (bx - x) ** 2 + (by - y) ** 2);
      // At the last rung τ is "at least c + m/2", and the choke is c.
      const t = tau[y * width + x]!;
      const limit = Math.min(choke, Math.max(0, t - narrowest / 2));
      if (Math.sqrt(d2) > limit + 1e-12) setBit(out, x, y);
    }
  return out;
}

const shape = (seed: number) => {
  const inks = separationsOf(randomLabels(24 + (seed % 40), 16 + (seed % 9), 2, seed));
  return inks[seed % 2]!;
};

describe('the choke', () => {
  test('400 random shapes agree with the rule point by point', () => {
    let kept = 0;
    for (let seed = 1; seed <= 400; seed++) {
      const next = numbers(seed);
      const choke = seed % 5 === 0 ? 1 + Math.floor(next() * 4) : next() * 5;
      const narrowest = seed % 7 === 0 ? 0 : next() * 5;
      const mask = shape(seed);
      const choked = chokeMask(mask, choke, narrowest);
      if (!equal(choked, byBruteForce(mask, choke, narrowest)))
        expect.fail(`seed ${seed}, choke ${choke}, narrowest ${narrowest}`);
      kept += inkCount(subtract(choked, shrink(mask, choke)));
    }
    // The local rule did keep points that a plain choke takes.
    expect(kept).toBeGreaterThan(2000);
  });

  test('seams between the pieces it works in leave no trace', () => {
    // A thin line and a ring across many joints, against the same drawn where they fall elsewhere.
    const mask = blankMask(1100, 300);
    for (let y = 0; y < 300; y++)
      for (let x = 980; x < 1070; x++) {
        const r = Math.hypot(x - 1024, y - 256);
        if (Math.abs(y - x + 800) <= 3 || (r > 30 && r < 36)) setBit(mask, x, y);
      }
    const part = blankMask(110, 300);
    for (let y = 0; y < 300; y++) for (let x = 0; x < 110; x++) setBit(part, x, y, getBit(mask, x + 970, y));
    const whole = chokeMask(mask, 4, 3);
    const alone = chokeMask(part, 4, 3);
    for (let y = 0; y < 300; y++)
      for (let x = 0; x < 110; x++)
        if (getBit(whole, x + 970, y) !== getBit(alone, x, y)) expect.fail(`at ${x + 970}, ${y}`);
  });

  test('a line as wide as the mesh holds stays whole, a wide bar draws in', () => {
    const line = maskOf('......... / ######### / ######### / ######### / .........');
    expect(equal(chokeMask(line, 2, 3), subtract(line, blankMask(9, 5)))).toBe(true);
    expect(inkCount(chokeMask(line, 2, 0))).toBeLessThan(inkCount(line));
    const bar = blankMask(60, 40);
    for (let y = 5; y < 35; y++) for (let x = 5; x < 55; x++) setBit(bar, x, y);
    expect(inkCount(subtract(shrink(bar, 3), chokeMask(bar, 3, 3)))).toBe(0);
    expect(getBit(chokeMask(bar, 3, 3), 30, 7)).toBe(false);
    expect(getBit(chokeMask(bar, 3, 3), 30, 8)).toBe(true);
  });

  test('a choke of 0 changes nothing', () => {
    expect(equal(chokeMask(shape(3), 0, 3), shape(3))).toBe(true);
  });
});

describe('the base', () => {
  test('it draws in at outer edges only, never between its own white and a covered ink', () => {
    const own = maskOf(
      '................ / ######.......... / ######.......... / ######.......... / ######.......... / ................',
    );
    const covered = maskOf(
      '................ / ......########.. / ......########.. / ......########.. / ......########.. / ................',
    );
    expect(draw(baseMask({ own, covered: [covered], chokePx: 1, narrowestPx: 0 }))).toBe(
      // Points at the very tips of corners stay by the rule.
      '................ / ######.......#.. / #############... / #############... / ######.......#.. / ................',
    );
  });

  test('two covered inks side by side have the base run through beneath them', () => {
    const none = blankMask(14, 5);
    const left = maskOf('.............. / .#####........ / .#####........ / .#####........ / ..............');
    const right = maskOf(
      '.............. / ......######.. / ......######.. / ......######.. / ..............',
    );
    expect(draw(baseMask({ own: none, covered: [left, right], chokePx: 1, narrowestPx: 0 }))).toBe(
      '.............. / .#.........#.. / ..#########... / .#.........#.. / ..............',
    );
  });
});

describe('crumbs of the base', () => {
  const none = blankMask(120, 90);
  const base = (covered: Mask) => baseMask({ own: none, covered: [covered], chokePx: 8.3, narrowestPx: 7.1 });

  test('the corners of a square leave none, though the rule keeps their tips', () => {
    const square = blankMask(120, 90);
    for (let y = 10; y < 80; y++) for (let x = 10; x < 110; x++) setBit(square, x, y);
    expect(components(chokeMask(square, 8.3, 7.1))).toHaveLength(5);
    expect(components(base(square))).toHaveLength(1);
    expect(inkCount(subtract(shrink(square, 8.3), base(square)))).toBe(0);
  });

  test('dots and lines of any size keep a base', () => {
    for (let r = 0.6; r < 20; r += 0.9) {
      const dot = blankMask(120, 90);
      for (let y = 0; y < 90; y++)
        for (let x = 0; x < 120; x++) if ((x - 60) ** 2 + (y - 45) ** 2 <= r * r) setBit(dot, x, y);
      expect(components(base(dot)), `dot of radius ${r}`).toHaveLength(1);
    }
    for (let width = 1; width < 20; width++) {
      const line = blankMask(120, 90);
      for (let y = 0; y < width; y++) for (let x = 20; x < 100; x++) setBit(line, x, y + 30);
      expect(components(base(line)), `line ${width} wide`).toHaveLength(1);
    }
  });
});

describe('holding gaps open', () => {
  test('an ink draws in towards bare wood and stays against its neighbours', () => {
    const print = maskOf(
      '.............. / .######....... / .######....... / .######....... / ..............',
    );
    const other = maskOf(
      '.............. / .......######. / .......######. / .......######. / ..............',
    );
    expect(draw(holdOpen(print, [other], 1, 0))).toBe(
      // The tips of corners stay by the rule: they hang on the rest.
      '.............. / .#............ / ..#####....... / .#............ / ..............',
    );
  });

  /** Pieces (8-connected) of fewer than `least` points, by walking. */
  const crumbsOf = (mask: Mask, least: number): Mask => {
    const out = blankMask(mask.width, mask.height);
    const seen = new Set<number>();
    for (let at = 0; at < mask.width * mask.height; at++) {
      if (seen.has(at) || !getBit(mask, at % mask.width, Math.floor(at / mask.width))) continue;
      const piece = [at];
      seen.add(at);
      for (const i of piece)
        for (const [dx, dy] of disc(2)) {
          const [x, y] = [(i % mask.width) + dx, Math.floor(i / mask.width) + dy];
          const n = y * mask.width + x;
          if (x < 0 || y < 0 || x >= mask.width || y >= mask.height || seen.has(n) || !getBit(mask, x, y))
            continue;
          seen.add(n);
          piece.push(n);
        }
      if (piece.length < least)
        for (const i of piece) setBit(out, i % mask.width, Math.floor(i / mask.width));
    }
    return out;
  };

  test('150 random maps of inks agree with the rule point by point', () => {
    let taken = 0;
    for (let seed = 1; seed <= 150; seed++) {
      const next = numbers(seed + 5000);
      const inks = 2 + (seed % 4);
      const separations = separationsOf(randomLabels(22 + (seed % 37), 14 + (seed % 11), inks, seed));
      const [gain, narrowest] = [next() * 4, seed % 7 === 0 ? 0 : next() * 5];
      const ink = seed % inks;
      const all = blankMask(separations[0]!.width, separations[0]!.height);
      for (const mask of separations) union(all, mask, all);
      const kept = gain < 1 ? shrink(all, gain) : byBruteForce(all, gain, narrowest);
      // A crumb is smaller than 0.7 of the disc as wide as the narrowest line, or than 4 points, and was no crumb before.
      const least = Math.max(4, (0.7 * Math.PI * narrowest ** 2) / 4);
      subtract(kept, subtract(crumbsOf(kept, least), crumbsOf(all, least)), kept);
      const wanted = intersect(kept, separations[ink]!);
      const held = holdOpen(separations[ink]!, separations, gain, narrowest);
      if (!equal(held, wanted)) expect.fail(`seed ${seed}, gain ${gain}, narrowest ${narrowest}`);
      taken += inkCount(separations[ink]!) - inkCount(held);
    }
    expect(taken).toBeGreaterThan(1000);
  });
});
