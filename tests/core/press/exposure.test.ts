import { expect, test } from 'vitest';
import {
  exposureHistory,
  exposureTime,
  stepTest,
  stepTestReading,
  tabletFactor,
} from '../../../core/press/index.ts';

const time = (input: Parameters<typeof exposureTime>[0]) => {
  const worked = exposureTime(input);
  if (!worked.ok) throw new Error(worked.reason);
  return worked.value.result.time;
};

// A 21-step tablet runs in steps of 0.15 density (G. Saxby, entry “densitometry”); density is −log₁₀ of transmittance
// (ISO 5-1), so step n needs 10^(0.15·(n − 1)) times the light of step 1. Figures reckoned apart, seven digits.
test.each([
  [2, 1.412538],
  [3, 1.995262],
  [7, 7.943282],
  [11, 31.62278],
  [14, 89.12509],
  [21, 1000],
])('step %d of the tablet takes %d times the light of step 1', (step, factor) =>
  expect(tabletFactor(step - 1) / factor).toBeCloseTo(1, 6),
);

test.each([
  // Seconds, step read, corrected to step 7.
  [60, 3, 238.8643],
  [60, 5, 119.7157],
  [60, 6, 84.75225],
  [60, 7, 60],
  [60, 8, 42.47675],
  [60, 9, 30.07123],
  [90, 10, 31.93321],
])('%d s that read step %d', (was, stepRead, corrected) =>
  expect(time({ time: was, stepRead, targetStep: 7 })).toBeCloseTo(corrected, 4),
);

test.each([
  // Inverse square law.
  [60, 500, 750, 135],
  [60, 500, 1000, 240],
  [60, 500, 400, 38.4],
  [120, 800, 600, 67.5],
  [45, 300, 1000, 500],
])('%d s at %d mm, moved to %d mm', (was, distance, newDistance, now) =>
  expect(time({ time: was, distance, newDistance })).toBeCloseTo(now, 9),
);

test('to dyed mesh and back is no change', () => {
  const there = time({ time: 60, mesh: 'to-dyed', dyedFactor: 1.8 });
  expect(there).toBeCloseTo(108, 9);
  expect(time({ time: there, mesh: 'to-white', dyedFactor: 1.8 })).toBeCloseTo(60, 9);
});

test('a step test gives each strip its time, burned piece by piece', () => {
  const worked = stepTest({ middle: 60, factor: Math.SQRT2, strips: 7 });
  if (!worked.ok) throw new Error(worked.reason);
  const { strips, order } = worked.value.result;
  expect(strips.map((s) => s.time)[3]).toBeCloseTo(60, 9);
  expect(strips[5]!.time).toBeCloseTo(120, 9);
  // What was burned up to a strip is its time.
  let sum = 0;
  for (const strip of strips) {
    sum += strip.burn;
    expect(sum).toBeCloseTo(strip.time, 9);
  }
  expect(order).toHaveLength(7);
  const read = stepTestReading({ middle: 60, factor: Math.SQRT2, strips: 7, strip: 5 });
  expect(read.ok && read.value.result.time).toBeCloseTo(60 * Math.SQRT2, 9);
  expect(stepTestReading({ middle: 60, factor: 1.4, strips: 7, strip: 8 }).ok).toBe(false);
});

test('history: alike screens only, each brought to its wanted step and to the lamp as it stands', () => {
  const like = { emulsion: 'blue', lamp: 'tubes', meshPerCm: 77, dyed: false, distance: 500 };
  const log = [
    { ...like, time: 60, step: 7, targetStep: 7 },
    { ...like, time: 30, step: 5, targetStep: 7, meshPerCm: 80 },
    { ...like, time: 240, distance: 1000 },
    { ...like, time: 999, emulsion: 'green' },
    { ...like, time: 999, meshPerCm: 120 },
  ];
  const found = exposureHistory(log, like);
  expect(found?.count).toBe(3);
  // 60, 30 × 10^0.3 and 240/4: the geometric mean of 60, 59.86 and 60.
  expect(found?.time).toBeCloseTo(59.95, 1);
  expect(found?.spread).toBeLessThan(1.01);
  expect(exposureHistory(log, { ...like, lamp: 'sun' })).toBeNull();
});

test('what can not be is refused in a sentence', () => {
  for (const bad of [
    { time: 0 },
    { time: Number.NaN },
    { time: 60, stepRead: 0 },
    { time: 60, distance: -1, newDistance: 5 },
  ])
    expect(exposureTime(bad)).toMatchObject({ ok: false, kind: 'input' });
});
