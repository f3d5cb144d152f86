import type { Mm } from '../units/index.ts';

/** How one pull lies off its place: a shift and a small turn about the middle of the raster. x to the right, y down. */
export interface PullError {
  readonly dx: Mm;
  readonly dy: Mm;
  /** Radians, clockwise as drawn on the raster (y down). */
  readonly turnRad: number;
}

/** Far more draws than a circle in its square ever needs. */
const MOST_DRAWS = 1000;

/**
 * One pull's error with both ends of its print, `length` mm apart along x, within `tolerance` of their places: each end's
 * error is drawn evenly from the circle of that radius (the ends share dx, for a film keeps its length).
 */
export function drawPullError(next: () => number, tolerance: Mm, length: Mm): PullError {
  if (!(tolerance > 0)) return { dx: 0, dy: 0, turnRad: 0 };
  for (let draw = 0; draw < MOST_DRAWS; draw++) {
    const dx = (2 * next() - 1) * tolerance;
    const left = (2 * next() - 1) * tolerance;
    const right = (2 * next() - 1) * tolerance;
    const room = tolerance * tolerance - dx * dx;
    if (left * left > room || right * right > room) continue;
    return { dx, dy: (left + right) / 2, turnRad: length > 0 ? (right - left) / length : 0 };
  }
  return { dx: 0, dy: 0, turnRad: 0 };
}
