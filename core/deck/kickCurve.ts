import { type Mm, toRad } from '../units/index.ts';
import type { Deck, Face } from './deck.ts';

/** One end of a face's centreline: flat to `start`, an arc of `radius` through `angleRad`, then a straight ramp. */
export interface KickCurve {
  /** mm from mid-wheelbase to where the bend begins. */
  readonly start: Mm;
  /** mm, radius of this face's bend: R on the top, R + T on the bottom. */
  readonly radius: Mm;
  readonly angleRad: number;
  readonly sin: number;
  readonly cos: number;
  /** mm along the wood through the bend. */
  readonly bend: Mm;
}

export function kickCurve(deck: Deck, face: Face, end: 'nose' | 'tail'): KickCurve {
  const kick = deck[end];
  const angleRad = toRad(kick.angleDeg);
  const radius = kick.radius + (face === 'bottom' ? deck.thickness : 0);
  return {
    start: deck.wheelbase / 2 + deck.holes.along + kick.start,
    radius,
    angleRad,
    sin: Math.sin(angleRad),
    cos: Math.cos(angleRad),
    bend: radius * angleRad,
  };
}

/** Slope, radians, `past` mm along the wood beyond the bend's beginning. */
export const slopePast = (curve: KickCurve, past: Mm): number =>
  past <= 0 ? 0 : past >= curve.bend ? curve.angleRad : past / curve.radius;

/** Curvature, 1/mm, there. */
export const bendPast = (curve: KickCurve, past: Mm): number =>
  past > 0 && past < curve.bend ? 1 / curve.radius : 0;

/** Plan length, mm, from the bend's beginning to the centreline point `past` mm along the wood. */
export function runPast(curve: KickCurve, past: Mm): Mm {
  if (past <= 0) return past;
  if (past < curve.bend) return curve.radius * Math.sin(past / curve.radius);
  return curve.radius * curve.sin + (past - curve.bend) * curve.cos;
}

/** Height, mm, of that point over the flat, towards the rider. */
export function risePast(curve: KickCurve, past: Mm): Mm {
  if (past <= 0) return 0;
  if (past < curve.bend) {
    const half = Math.sin(past / curve.radius / 2);
    return 2 * curve.radius * half * half;
  }
  return curve.radius * (1 - curve.cos) + (past - curve.bend) * curve.sin;
}

/**
 * Length along the centreline, mm past the bend's beginning, of the wood that stands `rise` mm off it and is seen
 * `run` mm of plan past the beginning. In the bend run = (R − rise)·sin φ; on the ramp (R − rise)·sin θ + rest·cos θ.
 */
export function pastAtRun(curve: KickCurve, run: Mm, rise: Mm): Mm {
  if (run <= 0 || curve.angleRad === 0) return run;
  const inner = curve.radius - rise;
  const inBend = inner * curve.sin;
  if (run < inBend) return curve.radius * Math.asin(run / inner);
  return curve.bend + (run - inBend) / curve.cos;
}
