import { expect, test } from 'vitest';
import { minuteNow } from '../../renderer/press/planClock.ts';

test('minutes of a run are counted by the calendar and the clock’s own time of day', () => {
  expect(minuteNow('2026-11-28', new Date(2026, 10, 28, 9, 30))).toBe(9 * 60 + 30);
  expect(minuteNow('2026-11-28', new Date(2026, 10, 30, 0, 5))).toBe(2 * 1440 + 5);
  // Over both changes of the clocks, wherever this runs.
  expect(minuteNow('2026-03-01', new Date(2026, 3, 1, 18, 0))).toBe(31 * 1440 + 18 * 60);
  expect(minuteNow('2026-10-01', new Date(2026, 10, 10, 18, 0))).toBe(40 * 1440 + 18 * 60);
});

test('a run without a date, of tomorrow, or of years ago has no now', () => {
  const now = new Date(2026, 10, 28, 9, 30);
  expect(minuteNow(undefined, now)).toBeNull();
  expect(minuteNow('2026-11-29', now)).toBeNull();
  expect(minuteNow('2024-11-28', now)).toBeNull();
});
