import { describe, expect, test } from 'vitest';
import {
  deltaE00,
  LINEAR_OF_BYTE,
  type LinearRgb,
  labOfLinear,
  linearOfHex,
} from '../../../core/colour/index.ts';
import type { Picture } from '../../../core/raster/index.ts';
import { screenedShares, unmixPicture, unmixTable } from '../../../core/separate/index.ts';
import { mixer } from '../../../core/separate/nearestMixture.ts';

/** Small seeded generator (mulberry32, public domain). */
function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
const three = (random: () => number): LinearRgb => [random(), random(), random()];
const mix = (colours: readonly LinearRgb[], shares: ArrayLike<number>): LinearRgb => {
  const sum: [number, number, number] = [0, 0, 0];
  colours.forEach((colour, i) => {
    for (let c = 0; c < 3; c++) sum[c as 0] += (colour[c as 0] as number) * (shares[i] as number);
  });
  return sum;
};
const apart = (a: LinearRgb, b: LinearRgb) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

/** The sorted-threshold projection to shares that are at least 0 and in sum 1. */
function toSimplex(v: number[]): number[] {
  const sorted = [...v].sort((a, b) => b - a);
  let sum = 0;
  let theta = 0;
  sorted.forEach((u, i) => {
    sum += u;
    const t = (sum - 1) / (i + 1);
    if (u - t > 0) theta = t;
  });
  return v.map((u) => Math.max(0, u - theta));
}

/**
 * A plain peer: projected gradients (projection: J. Duchi and others, "Efficient projections onto the l1-ball", 2008) with
 * Nesterov's momentum, until it stands still. Slow, and made otherwise than the active set.
 */
function projected(colours: readonly LinearRgb[], target: LinearRgb): number[] {
  const step = 1 / colours.reduce((s, p) => s + p[0] ** 2 + p[1] ** 2 + p[2] ** 2, 0);
  let now = colours.map(() => 1 / colours.length);
  let ahead = now;
  let t = 1;
  for (let k = 0; k < 8000; k++) {
    const seen = mix(colours, ahead);
    const gradient = colours.map(
      (p) => p[0] * (seen[0] - target[0]) + p[1] * (seen[1] - target[1]) + p[2] * (seen[2] - target[2]),
    );
    const next = toSimplex(ahead.map((w, i) => w - step * (gradient[i] as number)));
    const t2 = (1 + Math.sqrt(1 + 4 * t * t)) / 2;
    ahead = next.map((w, i) => w + ((t - 1) / t2) * (w - (now[i] as number)));
    [now, t] = [next, t2];
  }
  return now;
}

describe('shares of inks', () => {
  for (const seed of [1, 2, 3])
    test(`come as near to any colour as projected gradients do, 2 to 9 colours, seed ${seed}`, () => {
      const random = seeded(seed);
      for (let n = 2; n <= 9; n++) {
        const colours = Array.from({ length: n }, () => three(random));
        const solver = mixer(colours);
        const shares = new Float64Array(n);
        for (let k = 0; k < 6; k++) {
          const target = three(random);
          solver.solve(...target, shares);
          expect(Math.min(...shares)).toBeGreaterThanOrEqual(0);
          expect(shares.reduce((a, b) => a + b)).toBeCloseTo(1, 9);
          const peer = apart(mix(colours, projected(colours, target)), target);
          // A thousandth of white: what the cost on far colours may give away.
          expect(apart(mix(colours, shares), target)).toBeLessThan(peer + 1.5e-3);
        }
      }
    });

  for (const seed of [4, 5])
    test(`of up to three inks over bare are those the colour was mixed from, seed ${seed}`, () => {
      const random = seeded(seed);
      for (let k = 0; k < 60; k++) {
        const colours = Array.from({ length: 4 }, () => three(random));
        const raw = colours.map(() => random());
        const sum = raw.reduce((a, b) => a + b);
        const known = raw.map((v) => v / sum);
        const shares = new Float64Array(4);
        mixer(colours).solve(...mix(colours, known), shares);
        // Colours almost in one plane make shares uncertain but never the mixture; that is checked above.
        const [o, a, b, c] = colours as [LinearRgb, LinearRgb, LinearRgb, LinearRgb];
        const d = [a, b, c].map((p) => [p[0] - o[0], p[1] - o[1], p[2] - o[2]] as const);
        const [u, v, w] = d as [LinearRgb, LinearRgb, LinearRgb];
        const volume = Math.abs(
          u[0] * (v[1] * w[2] - v[2] * w[1]) -
            u[1] * (v[0] * w[2] - v[2] * w[0]) +
            u[2] * (v[0] * w[1] - v[1] * w[0]),
        );
        if (volume < 0.05) continue;
        known.forEach((share, i) => {
          expect(Math.abs((shares[i] as number) - share)).toBeLessThan(0.02);
        });
      }
    });

  test('of colours out of their reach look nearer than the nearest in light, and are those of light within it', () => {
    const random = seeded(8);
    let [inLight, bySight, beyond] = [0, 0, 0];
    for (let k = 0; k < 400; k++) {
      const colours = Array.from({ length: 4 }, () => three(random));
      const target = three(random);
      const [light, seen] = [new Float64Array(4), new Float64Array(4)];
      const solver = mixer(colours);
      solver.solve(...target, light);
      solver.solveSeen(...target, seen);
      if (apart(mix(colours, light), target) < 2e-3) {
        expect([...seen]).toEqual([...light]);
        continue;
      }
      beyond++;
      expect(Math.min(...seen)).toBeGreaterThanOrEqual(0);
      expect(seen.reduce((a, b) => a + b)).toBeCloseTo(1, 9);
      const lab = labOfLinear(target);
      inLight += deltaE00(labOfLinear(mix(colours, light)), lab);
      bySight += deltaE00(labOfLinear(mix(colours, seen)), lab);
    }
    expect(beyond).toBeGreaterThan(200);
    expect(bySight / beyond).toBeLessThan(0.97 * (inLight / beyond));
  });

  test('of two mixtures that look alike, the one of nearer inks is taken', () => {
    // Mid grey from black and white, or from two greys beside it.
    const grey = (v: number): LinearRgb => [v, v, v];
    const shares = new Float64Array(4);
    mixer([grey(0), grey(1), grey(0.45), grey(0.55)]).solve(0.5, 0.5, 0.5, shares);
    expect([...shares].map((v) => Math.round(v * 100))).toEqual([0, 0, 50, 50]);
  });
});

const PALETTE = {
  bare: linearOfHex('#dcb98a'),
  inks: ['#f7f3e8', '#f2b632', '#e8613c', '#2f8f83', '#1b2440'].map(linearOfHex),
};

describe('a picture unmixed by table', () => {
  const table = unmixTable(PALETTE);
  const random = seeded(6);
  const points = 4000;
  const data = Uint8Array.from({ length: points * 4 }, (_, i) =>
    i % 4 === 3 ? 255 : Math.floor(random() * 256),
  );
  const picture: Picture = { width: points, height: 1, data };
  const { planes } = unmixPicture(picture, table);

  test('sums to whole coverage at every point', () => {
    for (let i = 0; i < points; i++) expect(planes.reduce((sum, p) => sum + (p[i] as number), 0)).toBe(255);
  });

  test('shows nearly the light that solving each point by itself shows', () => {
    const colours = [PALETTE.bare, ...PALETTE.inks];
    const solver = mixer(colours);
    const shares = new Float64Array(6);
    let worst = 0;
    let mean = 0;
    for (let i = 0; i < points; i++) {
      const target: LinearRgb = [0, 1, 2].map((c) => LINEAR_OF_BYTE[data[4 * i + c] as number]) as never;
      solver.solveSeen(...target, shares);
      const looked = mix(
        colours,
        planes.map((p) => (p[i] as number) / 255),
      );
      const off = apart(looked, mix(colours, shares));
      worst = Math.max(worst, off);
      mean += off / points;
    }
    // Bytes alone allow a few thousandths; the table's straight steps where the gamut's border bends, the rest.
    expect(mean).toBeLessThan(0.004);
    expect(worst).toBeLessThan(0.03);
  });

  test('gives an ink’s own colour to that ink alone, and clear points to bare', () => {
    const own = Uint8Array.from([
      0xf2, 0xb6, 0x32, 255, 0x1b, 0x24, 0x40, 255, 9, 9, 9, 0, 0x1b, 0x24, 0x40, 128,
    ]);
    const made = unmixPicture({ width: 4, height: 1, data: own }, table).planes;
    expect(made[2]?.[0]).toBeGreaterThan(250);
    expect(made[5]?.[1]).toBeGreaterThan(250);
    expect(made.map((p) => p[2])).toEqual([255, 0, 0, 0, 0, 0]);
    expect(made[5]?.[3]).toBeGreaterThan(124);
    expect(made[5]?.[3]).toBeLessThan(130);
  });
});

describe('shares for screens that overlap by chance', () => {
  test('show the areas asked for when dots are thrown at random, opaque inks', () => {
    const asked = [64, 77, 51];
    const bare = 255 - 64 - 77 - 51;
    const coverage = { width: 1, height: 1, planes: [bare, ...asked].map((v) => Uint8Array.of(v)) };
    const printed = screenedShares(coverage, [1, 1, 1]).map((p) => p[0] as number);
    const random = seeded(7);
    const seen = [0, 0, 0, 0];
    const throws = 200000;
    for (let k = 0; k < throws; k++) {
      let top = 0;
      printed.forEach((cover, ink) => {
        if (random() * 255 < cover) top = ink + 1;
      });
      seen[top] = (seen[top] as number) + 1;
    }
    // Four standard errors of that many throws, and half a level of rounding.
    [bare, ...asked].forEach((area, i) => {
      expect(Math.abs((255 * (seen[i] as number)) / throws - area)).toBeLessThan(1.2);
    });
  });

  test('stay the areas asked for where nothing is hidden or nothing lies above', () => {
    const coverage = {
      width: 2,
      height: 1,
      planes: [
        [55, 155],
        [100, 100],
        [100, 0],
      ].map((p) => Uint8Array.from(p)),
    };
    expect(screenedShares(coverage, [0, 0]).map((p) => [...p])).toEqual([
      [100, 100],
      [100, 0],
    ]);
    expect(screenedShares(coverage, [1, 1])[0]?.[1]).toBe(100);
  });
});
