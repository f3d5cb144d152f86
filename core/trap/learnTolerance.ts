import type { Mm } from '../units/index.ts';
import { percentile } from './percentile.ts';

/** One reading of how far a pull lay off on a printed deck, mm: x towards the nose, y up as seen. */
export interface RegisterReading {
  readonly dx: Mm;
  readonly dy: Mm;
}

export interface LearnedTolerance {
  readonly readings: number;
  /** Screens with two readings or more: the others say how they sit, not how they wander. */
  readonly screens: number;
  /** Standard deviation about each screen's own mean along x and y, all screens together (readings less screens). */
  readonly deviation: RegisterReading;
  /** mm; 95 of 100 readings lie this near to where their screen sits (nearest rank): the tolerance of screens set true. */
  readonly toleranceMm: Mm;
}

/** Where one screen sits on average, mm: what its clamps can mend. */
export function screenOffset(readings: readonly RegisterReading[]): RegisterReading {
  const n = Math.max(1, readings.length);
  return {
    dx: readings.reduce((sum, r) => sum + r.dx, 0) / n,
    dy: readings.reduce((sum, r) => sum + r.dy, 0) / n,
  };
}

/**
 * What a log of measured misregister says of this printer's hands: `screens` holds the readings screen by screen. How a
 * screen sits is taken off its readings, since clamps mend that; and since the mean of n readings follows each of them,
 * what is left is widened by √(n / (n − 1)) (the standardised residual of a mean). Null where no screen was read twice.
 */
export function learnTolerance(screens: readonly (readonly RegisterReading[])[]): LearnedTolerance | null {
  const told = screens.filter((readings) => readings.length >= 2);
  if (told.length === 0) return null;
  const off: number[] = [];
  const squares = { dx: 0, dy: 0 };
  for (const readings of told) {
    const mean = screenOffset(readings);
    const widened = Math.sqrt(readings.length / (readings.length - 1));
    for (const { dx, dy } of readings) {
      off.push(widened * Math.hypot(dx - mean.dx, dy - mean.dy));
      squares.dx += (dx - mean.dx) ** 2;
      squares.dy += (dy - mean.dy) ** 2;
    }
  }
  const free = off.length - told.length;
  return {
    readings: off.length,
    screens: told.length,
    deviation: { dx: Math.sqrt(squares.dx / free), dy: Math.sqrt(squares.dy / free) },
    toleranceMm: percentile(off, 0.95),
  };
}
