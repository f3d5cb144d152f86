import type { Mm } from '../units/index.ts';
import { percentile } from './percentile.ts';

/** One reading of how far a pull lay off, mm: x towards the nose, y up as seen. */
export interface RegisterReading {
  readonly dx: Mm;
  readonly dy: Mm;
}

export interface LearnedTolerance {
  readonly readings: number;
  /** Their mean: a screen that sits off, which its clamps can mend. */
  readonly offset: RegisterReading;
  /** Standard deviation about the mean along x and y (n − 1); 0 for fewer than two readings. */
  readonly deviation: RegisterReading;
  /** mm; 95 of 100 readings lie this near to their mean (nearest rank): the tolerance of a screen set true. */
  readonly toleranceMm: Mm;
}

/** What a log of measured misregister says of this printer's hands. Null without a reading. */
export function learnTolerance(readings: readonly RegisterReading[]): LearnedTolerance | null {
  const n = readings.length;
  if (n === 0) return null;
  const mean = (of: (r: RegisterReading) => number) => readings.reduce((sum, r) => sum + of(r), 0) / n;
  const offset = { dx: mean((r) => r.dx), dy: mean((r) => r.dy) };
  const deviationOf = (of: (r: RegisterReading) => number) =>
    n < 2 ? 0 : Math.sqrt(readings.reduce((sum, r) => sum + of(r) ** 2, 0) / (n - 1));
  return {
    readings: n,
    offset,
    deviation: { dx: deviationOf((r) => r.dx - offset.dx), dy: deviationOf((r) => r.dy - offset.dy) },
    toleranceMm: percentile(
      readings.map((r) => Math.hypot(r.dx - offset.dx, r.dy - offset.dy)),
      0.95,
    ),
  };
}
