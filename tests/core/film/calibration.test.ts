import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { apply, calibrate, calibrationFrame, undoPrinter } from '../../../core/film/index.ts';
import { printer } from './testFace.ts';

/** A printer with a known fault, the other way round: where a point asked for at (x, y) lands. From the definition of scale and lean. */
function printed(x: number, y: number, sx: number, sy: number, leanDeg: number): [number, number] {
  const lean = (leanDeg * Math.PI) / 180;
  return [sx * x + sy * Math.sin(lean) * y, sy * Math.cos(lean) * y];
}

describe('printer calibration', () => {
  test('measured lengths of a simulated printer give back its scale and lean, and undoing them prints true, seed 3', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.97, max: 1.03, noNaN: true }),
        fc.double({ min: 0.97, max: 1.03, noNaN: true }),
        fc.double({ min: -0.4, max: 0.4, noNaN: true }),
        (sx, sy, lean) => {
          const facts = printer({ named: 'a4' });
          const frame = calibrationFrame(facts)!;
          const at = (x: number, y: number) => printed(x, y, sx, sy, lean);
          const far = (a: [number, number], b: [number, number]) => Math.hypot(a[0] - b[0], a[1] - b[1]);
          const [o, r, u, d] = [
            at(0, 0),
            at(frame.width, 0),
            at(0, frame.height),
            at(frame.width, frame.height),
          ];
          const outcome = calibrate(frame, {
            width: far(o, r),
            height: far(o, u),
            rising: far(o, d),
            falling: far(r, u),
          });
          if (!outcome.ok) throw new Error(outcome.reason);
          expect(outcome.value.scaleX).toBeCloseTo(sx, 9);
          expect(outcome.value.scaleY).toBeCloseTo(sy, 9);
          expect(outcome.value.skewDeg).toBeCloseTo(lean, 7);
          // Ask for 100 mm along each axis through the correction: the faulty printer then makes 100 mm, square.
          const undo = undoPrinter({ ...facts, ...outcome.value });
          const ask = (x: number, y: number) => {
            const [X, Y] = apply(undo, x, y);
            return at(X, Y);
          };
          const [p, q, s] = [ask(50, 50), ask(150, 50), ask(50, 150)];
          expect(far(p, q)).toBeCloseTo(100, 7);
          expect(far(p, s)).toBeCloseTo(100, 7);
          expect(q[1] - p[1]).toBeCloseTo(0, 7);
          expect(s[0] - p[0]).toBeCloseTo(0, 7);
        },
      ),
      { seed: 3, numRuns: 200 },
    );
  });

  test('misread lengths are refused with a sentence, never turned into a scale', () => {
    const frame = calibrationFrame(printer({ named: 'a4' }))!;
    const right = {
      width: frame.width,
      height: frame.height,
      rising: frame.diagonal,
      falling: frame.diagonal,
    };
    expect(calibrate(frame, right).ok).toBe(true);
    for (const wrong of [
      { width: 17 },
      { height: Number.NaN },
      { rising: 0 },
      { falling: frame.diagonal + 9 },
      { width: -frame.width },
    ]) {
      const outcome = calibrate(frame, { ...right, ...wrong });
      expect(outcome.ok, JSON.stringify(wrong)).toBe(false);
      if (!outcome.ok) expect(outcome.reason).toMatch(/\.$/);
    }
  });

  test('a lean that no printer has, and no job may hold, is refused though its four lengths agree', () => {
    const frame = calibrationFrame(printer({ named: 'letter' }))!;
    const corner = (leanDeg: number) => {
      const far = (x: number, y: number) => Math.hypot(...printed(x, y, 1, 1, leanDeg));
      const { width, height } = frame;
      return { width, height, rising: far(width, height), falling: far(-width, height) };
    };
    const most = calibrate(frame, corner(1.99));
    expect(most.ok && most.value.skewDeg).toBeCloseTo(1.99, 6);
    for (const lean of [2.5, -2.5]) {
      const outcome = calibrate(frame, corner(lean));
      expect(outcome.ok).toBe(false);
      if (!outcome.ok) expect(outcome.reason).toMatch(/leans -?2\.5°/);
    }
  });

  test('a stamp-sized sheet has no frame', () => {
    expect(calibrationFrame(printer({ sheet: { name: 'custom', width: 40, height: 50 } }))).toBeNull();
  });
});
