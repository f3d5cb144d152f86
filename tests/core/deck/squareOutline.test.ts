import { expect, test } from 'vitest';
import { squareOutline, truckHoles } from '../../../core/deck/index.ts';
import { PLAIN } from './anyDeck.ts';

/** A camera that looks askew: a projective map with a horizon, so that far holes come out closer together. */
const askew = (x: number, y: number): [number, number] => {
  const w = 1 + 2e-4 * x - 3e-4 * y;
  return [(2 * x + 0.3 * y + 900) / w, (-0.2 * x + 2.1 * y + 500) / w];
};

test('a deck photographed askew is squared from its holes, and its wheelbase found', () => {
  const deck = { ...PLAIN, wheelbase: 366.3 };
  const clicks = truckHoles(deck, 'bottom').map((h) => askew(h.x, h.y));
  for (const known of [366.3, null]) {
    const got = squareOutline(PLAIN, clicks, known);
    if (!got.ok) throw new Error(got.reason);
    expect(got.value.wheelbase).toBeCloseTo(366.3, 3);
    expect(got.value.residual).toBeLessThan(1e-4);
    const tip = got.value.toPlan(...askew(400, 15));
    expect(Math.hypot(tip.x - 400, tip.y - 15)).toBeLessThan(0.01);
  }
});

test('a hole clicked 2 mm off shows in the residual', () => {
  const clicks = truckHoles(PLAIN, 'bottom').map((h): [number, number] => [h.x, h.y]);
  clicks[3] = [clicks[3]![0] + 2, clicks[3]![1]];
  const got = squareOutline(PLAIN, clicks, PLAIN.wheelbase);
  expect(got.ok && got.value.residual).toBeGreaterThan(0.2);
});

test('too few holes, or holes in one line, are refused', () => {
  expect(squareOutline(PLAIN, [[0, 0]], null)).toMatchObject({ ok: false });
  const line = Array.from({ length: 8 }, (_, i): [number, number] => [i, 2 * i]);
  expect(squareOutline(PLAIN, line, 360)).toMatchObject({ ok: false });
});
