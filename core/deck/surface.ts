import type { Mm, PlanPoint, SpacePoint, SurfacePoint } from '../units/index.ts';
import {
  acrossLength,
  acrossPlan,
  acrossRise,
  acrossRiseAtPlan,
  faceCurvature,
  flatHalf,
} from './concave.ts';
import type { Deck, Face } from './deck.ts';
import { fadeShare } from './fade.ts';
import { bendPast, type KickCurve, kickCurve, pastAtRun, risePast, runPast, slopePast } from './kickCurve.ts';

/** How the wood of a face lies at one place of its centreline. */
export interface SurfaceStation {
  /** Slope of the centreline, radians, rising towards the rider whichever end this is. */
  readonly slopeRad: number;
  /** Curvature along the centreline, 1/mm. */
  readonly bend: number;
  /** Curvature across, 1/mm, and half the flat strip, mm. */
  readonly across: number;
  readonly flatHalf: Mm;
  /** mm past the beginning of the bend (negative: before it), and which end's it is. */
  readonly past: Mm;
  readonly curve: KickCurve;
}

/**
 * One face of the bent board. `z` is towards the rider from that face's own centreline at mid-wheelbase; the bottom's
 * lies `thickness` below the top's. Plan ↔ surface is exact to 1e-9 mm; with a fade the way back is a bracketed root,
 * to the same accuracy.
 */
export interface Surface {
  readonly face: Face;
  toSurface(p: PlanPoint): SurfacePoint;
  toPlan(p: SurfacePoint): PlanPoint;
  toSpace(p: SurfacePoint): SpacePoint;
  stationAt(s: Mm): SurfaceStation;
  /** Centreline lengths, mm, to the tips: `tail` is negative. */
  readonly extent: { readonly tail: Mm; readonly nose: Mm };
}

/** A root nearer than this, mm, moves no point by as much as a round trip may. */
const ROOT_MM = 1e-12;
/** Newton with a bracket halves at worst, so a metre comes down to `ROOT_MM` in 50 steps. */
const MOST_STEPS = 60;

export function makeSurface(deck: Deck, face: Face): Surface {
  const nose = kickCurve(deck, face, 'nose');
  const tail = kickCurve(deck, face, 'tail');
  const flat = flatHalf(deck);
  const full = faceCurvature(deck, face);
  const { fade } = deck.concave;
  const fades = fade > 0 && full > 0;

  const acrossPast = (past: Mm) =>
    !fades || past <= 0 ? full : faceCurvature(deck, face, fadeShare(past, fade));

  /** Centreline length past the bend's beginning of the wood seen at plan `run` past it and `y` across. */
  function pastFaded(curve: KickCurve, run: Mm, y: Mm): Mm {
    const seen = (past: Mm) =>
      runPast(curve, past) -
      acrossRiseAtPlan(y, flat, acrossPast(past)) * Math.sin(slopePast(curve, past)) -
      run;
    // The rise is between 0 and that of the full concave, and run grows with past: both bounds are closed forms.
    let low = pastAtRun(curve, run, 0);
    let high = pastAtRun(curve, run, acrossRiseAtPlan(y, flat, full));
    if (high - low <= ROOT_MM) return high;
    let fLow = seen(low);
    let fHigh = seen(high);
    if (fHigh <= 0) return high;
    if (fLow >= 0) return low;
    let at = high;
    // Illinois: false position that halves the stale end's value, so that both ends close in.
    for (let step = 0, side = 0; step < MOST_STEPS && high - low > ROOT_MM; step++) {
      at = (low * fHigh - high * fLow) / (fHigh - fLow);
      if (!(at > low && at < high)) at = (low + high) / 2;
      const f = seen(at);
      if (f === 0) break;
      if (f > 0) {
        high = at;
        fHigh = f;
        if (side === 1) fLow /= 2;
        side = 1;
      } else {
        low = at;
        fLow = f;
        if (side === -1) fHigh /= 2;
        side = -1;
      }
      if (Math.abs(f) < ROOT_MM) break;
    }
    return at;
  }

  function stationAt(s: Mm): SurfaceStation {
    const curve = s < 0 ? tail : nose;
    const past = Math.abs(s) - curve.start;
    return {
      slopeRad: slopePast(curve, past),
      bend: bendPast(curve, past),
      across: acrossPast(past),
      flatHalf: flat,
      past,
      curve,
    };
  }

  function toSurface({ x, y }: PlanPoint): SurfacePoint {
    const curve = x < 0 ? tail : nose;
    const run = Math.abs(x) - curve.start;
    if (run <= 0) return { s: x, t: acrossLength(y, flat, full) };
    const past = fades ? pastFaded(curve, run, y) : pastAtRun(curve, run, acrossRiseAtPlan(y, flat, full));
    const s = curve.start + past;
    return { s: x < 0 ? -s : s, t: acrossLength(y, flat, acrossPast(past)) };
  }

  function toPlan({ s, t }: SurfacePoint): PlanPoint {
    const curve = s < 0 ? tail : nose;
    const past = Math.abs(s) - curve.start;
    if (past <= 0) return { x: s, y: acrossPlan(t, flat, full) };
    const k = acrossPast(past);
    const x = curve.start + runPast(curve, past) - acrossRise(t, flat, k) * Math.sin(slopePast(curve, past));
    return { x: s < 0 ? -x : x, y: acrossPlan(t, flat, k) };
  }

  function toSpace(p: SurfacePoint): SpacePoint {
    const curve = p.s < 0 ? tail : nose;
    const past = Math.abs(p.s) - curve.start;
    const rise = acrossRise(p.t, flat, acrossPast(past));
    const { x, y } = toPlan(p);
    return { x, y, z: risePast(curve, past) + rise * Math.cos(slopePast(curve, past)) };
  }

  const outer = deck.wheelbase / 2 + deck.holes.along;
  const extent = {
    tail: toSurface({ x: -outer - deck.tailLength, y: 0 }).s,
    nose: toSurface({ x: outer + deck.noseLength, y: 0 }).s,
  };
  return { face, toSurface, toPlan, toSpace, stationAt, extent };
}
