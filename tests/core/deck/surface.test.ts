import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Deck, FACES, makeSurface, type Surface } from '../../../core/deck/index.ts';
import { anyDeck, PLAIN } from './anyDeck.ts';

/** Length of the bent line between two surface points, by adding up many short chords in space. */
function bruteLength(surface: Surface, s0: number, t0: number, s1: number, t1: number, n = 20_000): number {
  let sum = 0;
  let last = surface.toSpace({ s: s0, t: t0 });
  for (let i = 1; i <= n; i++) {
    const at = surface.toSpace({ s: s0 + ((s1 - s0) * i) / n, t: t0 + ((t1 - t0) * i) / n });
    sum += Math.hypot(at.x - last.x, at.y - last.y, at.z - last.z);
    last = at;
  }
  return sum;
}

/** Chord, sagitta, radius, arc length: elementary geometry reckoned to 40 digits apart from this program. */
const ARCS: readonly (readonly [number, number, number, number])[] = [
  [200, 10, 505, 201.330678],
  [200, 6, 836.333333, 200.479655],
  [200, 12, 422.666667, 201.914504],
  [203.2, 8, 649.16, 204.038856],
  [209.55, 9.5, 582.52898, 210.696611],
  [254, 14, 583.035714, 256.052768],
];

describe('across', () => {
  test.each(ARCS)('a %d mm deck %d mm deep has its arc', (width, depth, radius, arc) => {
    const deck: Deck = { ...PLAIN, width, concave: { ...PLAIN.concave, depth } };
    const top = makeSurface(deck, 'top');
    expect(1 / top.stationAt(0).across).toBeCloseTo(radius, 5);
    expect(1 / makeSurface(deck, 'bottom').stationAt(0).across).toBeCloseTo(radius + deck.thickness, 5);
    expect(2 * top.toSurface({ x: 0, y: width / 2 }).t).toBeCloseTo(arc, 5);
    expect(top.toSpace(top.toSurface({ x: 0, y: width / 2 })).z).toBeCloseTo(depth, 9);
  });

  // Plan distance from the crown, arc from the crown, gap: the same reckoning, radius 505 mm.
  test.each([
    [10, 10.0006536, 0.0990196088],
    [25, 25.0102227, 0.619191483],
    [50, 50.0820538, 2.48134363],
    [75, 75.2784813, 5.60036043],
    [90, 90.4833649, 8.08451423],
  ])('%d mm from the crown', (x, arc, gap) => {
    const top = makeSurface(PLAIN, 'top');
    const at = top.toSurface({ x: 0, y: x });
    expect(at.t).toBeCloseTo(arc, 6);
    expect(top.toSpace(at).z).toBeCloseTo(gap, 7);
  });
});

// A straight kick seen in plan is shorter by the cosine, and rises by the sine: trigonometric tables.
test.each([
  [20, 165, 155.049282, 56.4333236],
  [24, 170, 155.302728, 69.1452293],
])('a ramp of %d° foreshortens', (angleDeg, length, plan, rise) => {
  const deck = { ...PLAIN, nose: { start: 25, radius: 0.001, angleDeg }, thickness: 2 };
  const top = makeSurface(deck, 'top');
  const start = 360 / 2 + 53.975 + 25;
  const p = top.toSpace({ s: start + 0.001 * ((angleDeg * Math.PI) / 180) + length, t: 0 });
  expect(p.x - start).toBeCloseTo(plan, 2);
  expect(p.z).toBeCloseTo(rise, 2);
});

test.each(FACES)('plan → surface → plan comes back to 1e-9 mm, %s', (face) => {
  fc.assert(
    fc.property(
      anyDeck(),
      fc.double({ min: -1, max: 1, noNaN: true }),
      fc.double({ min: -1, max: 1, noNaN: true }),
      (deck, a, b) => {
        const surface = makeSurface(deck, face);
        const x = a * (deck.wheelbase / 2 + 250);
        const y = (b * deck.width) / 2;
        const back = surface.toPlan(surface.toSurface({ x, y }));
        expect(Math.hypot(back.x - x, back.y - y)).toBeLessThan(1e-9);
      },
    ),
    { numRuns: 2000, seed: 1 },
  );
});

test.each(FACES)('a fading concave comes back to 1e-6 mm, %s', (face) => {
  const fade = fc.double({ min: 20, max: 150, noNaN: true });
  fc.assert(
    fc.property(
      anyDeck(fade),
      fc.double({ min: -1, max: 1, noNaN: true }),
      fc.double({ min: -1, max: 1, noNaN: true }),
      (deck, a, b) => {
        const surface = makeSurface(deck, face);
        const x = a * (deck.wheelbase / 2 + 250);
        const y = (b * deck.width) / 2;
        const back = surface.toPlan(surface.toSurface({ x, y }));
        expect(Math.hypot(back.x - x, back.y - y)).toBeLessThan(1e-6);
        const at = surface.toSurface({ x, y });
        const s = surface.toSurface(surface.toPlan(at));
        expect(Math.hypot(s.s - at.s, s.t - at.t)).toBeLessThan(1e-6);
      },
    ),
    { numRuns: 2000, seed: 2 },
  );
});

test('the board is alike left and right, and further out in plan is further out along the wood', () => {
  fc.assert(
    fc.property(anyDeck(fc.constantFrom(0, 60)), fc.double({ min: 0, max: 1, noNaN: true }), (deck, b) => {
      const surface = makeSurface(deck, 'top');
      const y = (b * deck.width) / 2;
      let last = -Infinity;
      for (let x = -deck.wheelbase / 2 - 260; x <= deck.wheelbase / 2 + 260; x += 7) {
        const p = surface.toSurface({ x, y });
        const q = surface.toSurface({ x, y: -y });
        expect(p.s).toBe(q.s);
        expect(p.t).toBe(-q.t + 0);
        expect(p.s).toBeGreaterThan(last);
        last = p.s;
      }
    }),
    { numRuns: 200, seed: 3 },
  );
});

test.each(FACES)('lengths add up in space by brute force, %s', (face) => {
  for (const profile of ['radial', 'flat-centre'] as const) {
    const deck: Deck = { ...PLAIN, concave: { profile, depth: 12, flatWidth: 60, fade: 0 } };
    const surface = makeSurface(deck, face);
    // Along the centreline s is the wood's length; across, t is.
    expect(bruteLength(surface, 0, 0, 400, 0)).toBeCloseTo(400, 5);
    expect(bruteLength(surface, 0, 0, -390, 0)).toBeCloseTo(390, 5);
    for (const s of [0, 275, 380]) expect(bruteLength(surface, s, -95, s, 95)).toBeCloseTo(190, 5);
    // Off the centreline the bend shortens the wood by h·θ.
    const h = surface.toSpace({ s: 0, t: 90 }).z;
    expect(bruteLength(surface, 0, 90, 400, 90)).toBeCloseTo(400 - (h * 21 * Math.PI) / 180, 4);
  }
});

test('the faces lie a thickness apart', () => {
  const top = makeSurface(PLAIN, 'top');
  const bottom = makeSurface(PLAIN, 'bottom');
  // Straight below a top point at mid-deck, measured square to the wood.
  for (const angle of [0, 0.05, 0.15]) {
    const a = top.toSpace({ s: 0, t: 505 * angle });
    const b = bottom.toSpace({ s: 0, t: 516 * angle });
    expect(Math.hypot(a.x - b.x, a.y - b.y, a.z - (b.z - 11))).toBeCloseTo(11, 9);
  }
});

test('a flat board is its own plan, and a shallow concave comes to it', () => {
  const flat: Deck = {
    ...PLAIN,
    concave: { ...PLAIN.concave, depth: 0 },
    nose: { ...PLAIN.nose, angleDeg: 0 },
    tail: { ...PLAIN.tail, angleDeg: 0 },
  };
  for (const depth of [0, 1e-12, 1e-6, 1e-3]) {
    const surface = makeSurface({ ...flat, concave: { ...flat.concave, depth } }, 'bottom');
    for (const x of [-390, -100, 0, 250, 400])
      for (const y of [-100, -3, 0, 60]) {
        const p = surface.toSurface({ x, y });
        // The arc exceeds its chord by about 8d²/3c.
        expect(Math.abs(p.s - x)).toBeLessThan(1e-12);
        expect(Math.abs(p.t - y)).toBeLessThanOrEqual((8 * depth * depth) / (3 * 200) + 1e-12);
        expect(surface.toSpace(p).z).toBeLessThanOrEqual(depth * 1.0001 + 1e-15);
      }
  }
});
