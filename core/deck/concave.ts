import type { Mm } from '../units/index.ts';
import type { Deck, Face } from './deck.ts';

/**
 * The shape across the deck: a flat strip `2·flat` wide, then a circular arc to each rail. Everything is written with the
 * arc's curvature k = 1/ρ, so that a flat board (k = 0) needs no other branch than a limit.
 */

/** Below this turn, radians, an arc and its tangent differ by less than a double can hold. */
const FLAT_TURN = 1e-9;

/**
 * Curvature, 1/mm, of the arc that rises `depth` mm over `run` mm beside the flat strip, tangent to it: 1/ρ with
 * ρ = (run² + depth²)/(2·depth), which for run = w/2 is w²/(8d) + d/2.
 */
export const arcCurvature = (run: Mm, depth: Mm): number =>
  run > 0 ? (2 * depth) / (run * run + depth * depth) : 0;

/** The same arc `thickness` further out: ρ + T. */
export const outerCurvature = (k: number, thickness: Mm): number => k / (1 + k * thickness);

/** Half the flat strip, mm, of a deck's concave; 0 for a radial one. */
export const flatHalf = (deck: Deck): Mm =>
  deck.concave.profile === 'flat-centre' ? Math.min(deck.concave.flatWidth, deck.width) / 2 : 0;

/** Curvature, 1/mm, of a face's arcs where the concave has `share` (0 to 1) of its full depth. */
export function faceCurvature(deck: Deck, face: Face, share = 1): number {
  const k = arcCurvature(deck.width / 2 - flatHalf(deck), deck.concave.depth * share);
  return face === 'top' ? k : outerCurvature(k, deck.thickness);
}

/** Plan y, mm, of the point `t` mm along the wood from the centreline. */
export function acrossPlan(t: Mm, flat: Mm, k: number): Mm {
  const run = Math.abs(t) - flat;
  const turn = run * k;
  if (run <= 0 || turn < FLAT_TURN) return t;
  const y = flat + Math.sin(turn) / k;
  return t < 0 ? -y : y;
}

/** Height off the centreline, mm, of the point `t` mm along the wood: ρ·(1 − cos), towards the rider. */
export function acrossRise(t: Mm, flat: Mm, k: number): Mm {
  const run = Math.abs(t) - flat;
  if (run <= 0) return 0;
  const turn = run * k;
  if (turn < FLAT_TURN) return (run * turn) / 2;
  const half = Math.sin(turn / 2);
  return (2 * half * half) / k;
}

/** Length along the wood, mm, of the point at plan `y`; beyond the arc's quarter turn it stays at the quarter. */
export function acrossLength(y: Mm, flat: Mm, k: number): Mm {
  const run = Math.abs(y) - flat;
  const sine = run * k;
  if (run <= 0 || sine < FLAT_TURN) return y;
  const t = flat + Math.asin(Math.min(1, sine)) / k;
  return y < 0 ? -t : t;
}

/** Height off the centreline, mm, of the point at plan `y`: ρ − √(ρ² − y²), without its loss of digits. */
export function acrossRiseAtPlan(y: Mm, flat: Mm, k: number): Mm {
  const run = Math.abs(y) - flat;
  if (run <= 0) return 0;
  const sine = Math.min(1, run * k);
  return (run * sine) / (1 + Math.sqrt(1 - sine * sine));
}

/** Integral of `acrossRise` from the centreline to `t` ≥ 0, mm²: ∫ρ(1 − cos) = ρ·(run − ρ·sin(run/ρ)). */
export function riseIntegral(t: Mm, flat: Mm, k: number): number {
  const run = Math.abs(t) - flat;
  if (run <= 0) return 0;
  const turn = run * k;
  // The difference loses its digits for gentle arcs; the series' next term is under 1e-13 of the first there.
  if (turn < 1e-2) {
    const q = turn * turn;
    return (run * run * turn * (1 - (q / 20) * (1 - (q / 42) * (1 - q / 72)))) / 6;
  }
  return (run - Math.sin(turn) / k) / k;
}
