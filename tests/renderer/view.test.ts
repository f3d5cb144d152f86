import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fitView, toScreen, toSurfacePoint, zoomedAt } from '../../renderer/state/view.ts';

const views = fc.record({
  s: fc.double({ min: -500, max: 500, noNaN: true }),
  t: fc.double({ min: -500, max: 500, noNaN: true }),
  scale: fc.double({ min: 0.2, max: 50, noNaN: true }),
});

test('a place on the deck and its place on the screen lead back to each other; seed 11', () => {
  fc.assert(
    fc.property(views, fc.double({ min: -400, max: 400, noNaN: true }), (view, s) => {
      const p = toScreen(view, 1000, 400, s, s / 3);
      const back = toSurfacePoint(view, 1000, 400, p.x, p.y);
      expect(back.s).toBeCloseTo(s, 6);
      expect(back.t).toBeCloseTo(s / 3, 6);
    }),
    { seed: 11 },
  );
});

test('zooming keeps what lies under the pointer where it is; seed 12', () => {
  fc.assert(
    fc.property(
      views,
      fc.integer({ min: 0, max: 1000 }),
      fc.double({ min: 0.5, max: 2, noNaN: true }),
      (view, x, factor) => {
        const held = toSurfacePoint(view, 1000, 400, x, 90);
        const p = toScreen(zoomedAt(view, 1000, 400, x, 90, factor), 1000, 400, held.s, held.t);
        expect(p.x).toBeCloseTo(x, 6);
        expect(p.y).toBeCloseTo(90, 6);
      },
    ),
    { seed: 12 },
  );
});

test('a fitted deck lies whole inside its margins, +t up and the nose to the right', () => {
  const box = { x: -400, y: -105, width: 830, height: 210 };
  const margins = { side: 100, top: 70, bottom: 50 };
  const view = fitView(box, 1400, 420, margins);
  const tail = toScreen(view, 1400, 420, box.x, box.y);
  const nose = toScreen(view, 1400, 420, box.x + box.width, box.y + box.height);
  expect(nose.x).toBeGreaterThan(tail.x);
  expect(nose.y).toBeLessThan(tail.y);
  expect(tail.x).toBeGreaterThanOrEqual(100 - 1e-9);
  expect(nose.x).toBeLessThanOrEqual(1300 + 1e-9);
  expect(nose.y).toBeGreaterThanOrEqual(70 - 1e-9);
  expect(tail.y).toBeLessThanOrEqual(370 + 1e-9);
});
