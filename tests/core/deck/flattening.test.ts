import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  FACES,
  makeFilmMap,
  makeFlattening,
  makeSurface,
  misfit,
  outlineOnSurface,
} from '../../../core/deck/index.ts';
import { anyDeck, PLAIN } from './anyDeck.ts';

const DEVELOPMENTS = ['centreline', 'balanced'] as const;

test('surface → film → surface comes back to 1e-9 mm', () => {
  fc.assert(
    fc.property(
      anyDeck(fc.constantFrom(0, 70)),
      fc.constantFrom(...FACES),
      fc.constantFrom(...DEVELOPMENTS),
      fc.double({ min: -0.01, max: 0.02, noNaN: true }),
      (deck, face, development, growth) => {
        const map = makeFilmMap(deck, face, { development, growth: { along: growth, across: growth / 2 } });
        let last = -Infinity;
        for (let s = -520; s <= 520; s += 13.7) {
          const film = map.toFilm({ s, t: 31 });
          expect(film.u).toBeGreaterThan(last);
          last = film.u;
          const back = map.toSurface(film);
          expect(Math.hypot(back.s - s, back.t - 31)).toBeLessThan(1e-9);
        }
      },
    ),
    { numRuns: 60, seed: 4 },
  );
});

test('a print that grows a half per cent needs a film smaller by 1/1.005', () => {
  const map = makeFilmMap(PLAIN, 'bottom', {
    development: 'centreline',
    growth: { along: 0.005, across: 0.002 },
  });
  expect(map.toFilm({ s: 201, t: 50.1 })).toEqual({ u: 201 / 1.005, v: 50.1 / 1.002 });
});

test('the balanced length is ∫(1 − m·κ) ds, by brute force', () => {
  const surface = makeSurface(PLAIN, 'bottom');
  const ring = outlineOnSurface(PLAIN, 'bottom', 0.0005);
  const railAt = (s: number) => {
    let most = 0;
    for (let i = 0; i < ring.length; i++) {
      const [a, p] = ring[i]!;
      const [b, q] = ring[(i + 1) % ring.length]!;
      if ((a <= s && b > s) || (b <= s && a > s)) most = Math.max(most, p + ((q - p) * (s - a)) / (b - a));
    }
    return most;
  };
  const start = 360 / 2 + 53.975 + 25;
  const bend = (121 * 21 * Math.PI) / 180;
  let lost = 0;
  const n = 2000;
  for (let i = 0; i < n; i++) {
    const half = railAt(start + ((i + 0.5) * bend) / n) - 6;
    let mean = 0;
    for (let j = 0; j < 200; j++) mean += surface.toSpace({ s: 0, t: ((j + 0.5) * half) / 200 }).z / 200;
    lost += (mean / 121) * (bend / n);
  }
  const flat = makeFlattening(PLAIN, 'bottom', 'balanced');
  const ours = start + bend - flat.toFlat({ s: start + bend, t: 0 }).u;
  // 200 midpoints of the mean are good to 1e-5 of it.
  expect(Math.abs(ours - lost)).toBeLessThan(5e-5);
  expect(ours).toBeGreaterThan(0.5);
});

test('the centreline development errs by h(t)·θ at the rails, the balanced one by less', () => {
  const surface = makeSurface(PLAIN, 'top');
  const centre = misfit(PLAIN, 'top', 'centreline');
  const { s, t } = centre.worstMisfit.at;
  const h = surface.toSpace({ s: 0, t }).z;
  const theta = surface.stationAt(s).slopeRad;
  expect(centre.worstMisfit.mm * Math.sign(s)).toBeCloseTo(-h * theta, 5);
  // The stretch in the bend is 1 − h/R.
  const at = centre.worstStretch.at;
  expect(centre.worstStretch.value).toBeCloseTo(1 - surface.toSpace({ s: 0, t: at.t }).z / 110, 6);
  const balanced = misfit(PLAIN, 'top', 'balanced');
  expect(Math.abs(balanced.worstMisfit.mm)).toBeLessThan(Math.abs(centre.worstMisfit.mm));
});

test('where a concave fades, the stretches are those of finite differences in space', () => {
  const deck = { ...PLAIN, concave: { ...PLAIN.concave, fade: 70 } };
  const surface = makeSurface(deck, 'bottom');
  const flat = makeFlattening(deck, 'bottom', 'balanced');
  const field = misfit(deck, 'bottom', 'balanced', 9);
  let seen = 0;
  field.t.forEach((t, r) => {
    field.s.forEach((s, c) => {
      const i = r * field.s.length + c;
      if (Number.isNaN(field.stretchMost[i])) return;
      const d = 1e-4;
      const along = (x: number) => surface.toSpace({ s: flat.toSurface({ u: x, v: t }).s, t });
      const u = flat.toFlat({ s, t }).u;
      const [a, b] = [along(u + d), along(u - d)];
      const [e, f] = [surface.toSpace({ s, t: t + d }), surface.toSpace({ s, t: t - d })];
      const p = [(a.x - b.x) / (2 * d), (a.y - b.y) / (2 * d), (a.z - b.z) / (2 * d)];
      const q = [(e.x - f.x) / (2 * d), (e.y - f.y) / (2 * d), (e.z - f.z) / (2 * d)];
      const dot = (m: number[], n: number[]) => m[0]! * n[0]! + m[1]! * n[1]! + m[2]! * n[2]!;
      // Area and squared sum of the two stretches do not depend on how they are found.
      const square = dot(p, p) + dot(q, q);
      const area = Math.sqrt(dot(p, p) * dot(q, q) - dot(p, q) ** 2);
      const most = field.stretchMost[i]!;
      const least = field.stretchLeast[i]!;
      expect(Math.abs(most * least - area)).toBeLessThan(2e-5);
      expect(Math.abs(most * most + least * least - square)).toBeLessThan(2e-5);
      seen++;
    });
  });
  expect(seen).toBeGreaterThan(500);
});

test('the film shares its error over the width inside the rail margin of its own face', () => {
  const growth = { along: 0, across: 0 };
  const at = { s: 400, t: 0 };
  const film = (railMargin?: number) =>
    makeFilmMap(PLAIN, 'top', {
      development: 'balanced',
      growth,
      ...(railMargin === undefined ? {} : { railMargin }),
    });
  for (const margin of [0, 6, 30])
    expect(film(margin).toFilm(at).u).toBe(makeFlattening(PLAIN, 'top', 'balanced', margin).toFlat(at).u);
  // The rails rise most: the more of them is left out, the longer the film.
  expect(film(30).toFilm(at).u).toBeGreaterThan(film(6).toFilm(at).u + 0.2);
  expect(film().toFilm(at).u).toBe(film(6).toFilm(at).u);
});
