import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fitPairs, moveBy, registerCorrection } from '../../../core/press/index.ts';
import { PAIR_CASES } from './registerPairs.ts';

const got = <T>(o: { ok: true; value: { result: T } } | { ok: false; reason: string }): T => {
  if (!o.ok) throw new Error(o.reason);
  return o.value.result;
};
const deg = (rad: number) => (rad * 180) / Math.PI;

describe.each(PAIR_CASES)('$name', ({ source, target, similarity, rigid }) => {
  test.each([
    ['similarity', similarity, true],
    ['rigid', rigid, false],
  ] as const)('%s', (_, want, withScale) => {
    const fit = fitPairs(source, target, withScale);
    if (!fit.ok) throw new Error(fit.reason);
    const { turnRad, scale, shift, rms, residuals } = fit.value;
    // Half turns: 180° and −180° are the same.
    expect(Math.abs(Math.sin((turnRad - (want.angleDeg * Math.PI) / 180) / 2))).toBeLessThan(1e-9);
    expect(scale).toBeCloseTo(want.scale, 8);
    expect(shift[0]).toBeCloseTo(want.shift[0], 6);
    expect(shift[1]).toBeCloseTo(want.shift[1], 6);
    expect(rms).toBeCloseTo(want.rms, 8);
    for (const [i, r] of want.residuals.entries()) expect(residuals[i]).toBeCloseTo(r, 7);
  });
});

const MARKS = [
  [-380, 0],
  [380, 0],
  [0, -120],
  [0, 120],
] as const;
const CLAMPS = [
  [-260, -230],
  [260, -230],
] as const;

/** What the verniers show when the later pull lies turned and shifted. */
const readingsOf = (
  turnRad: number,
  shift: readonly [number, number],
  marks: readonly (readonly [number, number])[] = MARKS,
) =>
  marks.map((p) => {
    const [x, y] = moveBy({ turnRad, scale: 1, shift }, p);
    return { x: p[0], y: p[1], along: x - p[0], across: y - p[1] };
  });

const errors = fc.record({
  turn: fc.double({ min: -0.02, max: 0.02, noNaN: true }),
  x: fc.double({ min: -5, max: 5, noNaN: true }),
  y: fc.double({ min: -5, max: 5, noNaN: true }),
});

test('correcting a simulated rigid error restores every point to 1e-9 mm, seed 8', () => {
  fc.assert(
    fc.property(errors, fc.integer({ min: 2, max: 4 }), ({ turn, x, y }, count) => {
      const { turnRad, shift, rms } = got(
        registerCorrection({ readings: readingsOf(turn, [x, y], MARKS.slice(0, count)), clamps: CLAMPS }),
      );
      expect(rms).toBeLessThan(1e-9);
      for (const p of [
        [-400, 100],
        [400, -100],
        [0, 0],
        [123, 45],
      ] as const) {
        const wrong = moveBy({ turnRad: turn, scale: 1, shift: [x, y] }, p);
        const [rx, ry] = moveBy({ turnRad, scale: 1, shift }, wrong);
        expect(Math.hypot(rx - p[0], ry - p[1])).toBeLessThan(1e-9);
      }
    }),
    { seed: 8, numRuns: 300 },
  );
});

test('the two clamp moves, made by hand, are the whole correction, seed 9', () => {
  fc.assert(
    fc.property(errors, ({ turn, x, y }) => {
      const found = got(registerCorrection({ readings: readingsOf(turn, [x, y]), clamps: CLAMPS }));
      // A frame on two clamps goes where they go: the rigid move through the two moved clamps.
      const rigid = fitPairs(
        CLAMPS,
        found.clamps.map((c): [number, number] => [c.x + c.along, c.y + c.across]),
        false,
      );
      if (!rigid.ok) throw new Error(rigid.reason);
      for (const p of MARKS) {
        const [rx, ry] = moveBy(rigid.value, moveBy({ turnRad: turn, scale: 1, shift: [x, y] }, p));
        expect(Math.hypot(rx - p[0], ry - p[1])).toBeLessThan(1e-9);
      }
    }),
    { seed: 9, numRuns: 200 },
  );
});

test('a print 0.4 mm too far to the nose moves both clamps to the tail', () => {
  const { clamps, turnRad, meaning } = got(
    registerCorrection({ readings: readingsOf(0, [0.4, 0]), clamps: CLAMPS }),
  );
  expect(deg(turnRad)).toBeCloseTo(0, 12);
  expect(clamps.map((c) => c.words)).toEqual([
    'Tail-side clamp: move 0.40 mm toward the tail',
    'Nose-side clamp: move 0.40 mm toward the tail',
  ]);
  expect(meaning).toBe('good');
});

test('scales that stand apart, along at the ends and across at the sides, give the same move', () => {
  const whole = readingsOf(0.001, [0.3, -0.2]);
  const apart = whole.map(({ x, y, along, across }) => (y === 0 ? { x, y, across } : { x, y, along }));
  const [a, b] = [whole, apart].map((readings) => got(registerCorrection({ readings, clamps: CLAMPS })));
  expect(b!.turnRad).toBeCloseTo(a!.turnRad, 6);
  // The scale that is missing shifts a mark by less than a µm at such turns.
  expect(b!.shift[0]).toBeCloseTo(a!.shift[0], 3);
  expect(b!.shift[1]).toBeCloseTo(a!.shift[1], 3);
});

test('least squares: no nearby move leaves less, against noisy readings', () => {
  const readings = readingsOf(0.002, [0.5, -0.3]).map((r, i) => ({
    ...r,
    along: r.along + [0.1, -0.05, 0.07, -0.2][i]!,
    across: r.across + [-0.08, 0.12, 0.03, 0.05][i]!,
  }));
  const { turnRad, shift } = got(registerCorrection({ readings, clamps: CLAMPS }));
  const cost = (turn: number, sx: number, sy: number) =>
    readings.reduce((sum, r) => {
      const [x, y] = moveBy({ turnRad: turn, scale: 1, shift: [sx, sy] }, [r.x + r.along, r.y + r.across]);
      return sum + (x - r.x) ** 2 + (y - r.y) ** 2;
    }, 0);
  const best = cost(turnRad, shift[0], shift[1]);
  for (const d of [-1, 1])
    for (const [a, b, c] of [
      [1e-5, 0, 0],
      [0, 1e-3, 0],
      [0, 0, 1e-3],
    ] as const)
      expect(cost(turnRad + d * a, shift[0] + d * b, shift[1] + d * c)).toBeGreaterThan(best);
});

test('what is left over is told apart: stretch, one mark, loose, good', () => {
  const stretched = MARKS.map(([x, y]) => ({ x, y, along: x * 0.001, across: y * 0.001 }));
  const found = got(registerCorrection({ readings: stretched, clamps: CLAMPS }));
  expect(found.meaning).toBe('stretched');
  expect(found.stretch).toBeCloseTo(0.001, 9);
  const one = readingsOf(0, [0.2, 0.1]).map((r, i) => (i === 3 ? { ...r, across: r.across + 1.5 } : r));
  expect(got(registerCorrection({ readings: one, clamps: CLAMPS })).meaning).toBe('one-mark');
  const loose = [...readingsOf(0, [0.5, 0]), ...readingsOf(0, [-0.5, 0])];
  const told = got(registerCorrection({ readings: loose, clamps: CLAMPS }));
  expect(told.meaning).toBe('loose');
  expect(told.marks).toHaveLength(4);
  expect(told.shift[0]).toBeCloseTo(0, 12);
});

test('too few scales, or clamps at one place, are refused', () => {
  const one = [{ x: 100, y: 0, along: 0.1, across: 0 }];
  expect(registerCorrection({ readings: one, clamps: CLAMPS }).ok).toBe(false);
  const alongOnly = MARKS.slice(0, 2).map(([x, y]) => ({ x, y, along: 0.1 }));
  expect(registerCorrection({ readings: alongOnly, clamps: CLAMPS }).ok).toBe(false);
  expect(
    registerCorrection({
      readings: readingsOf(0, [1, 0]),
      clamps: [
        [0, 0],
        [0, 5],
      ],
    }).ok,
  ).toBe(false);
});
