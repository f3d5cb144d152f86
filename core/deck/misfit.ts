import type { Mm, SurfacePoint } from '../units/index.ts';
import { acrossPlan, acrossRise, faceCurvature } from './concave.ts';
import type { Deck, Face } from './deck.ts';
import { fadeShare, fadeSlope } from './fade.ts';
import { type Development, makeFlattening, USUAL_RAIL_MARGIN } from './flattening.ts';
import { kickCurve } from './kickCurve.ts';
import { outlineOnSurface } from './outlineOnSurface.ts';
import { insideRing } from './ringTests.ts';
import { makeSurface, type SurfaceStation } from './surface.ts';

/** A film without mesh growth laid on the bent face: where it can not lie true. */
export interface Misfit {
  /** Column centres along, row centres across, mm on the surface. */
  readonly s: Float64Array;
  readonly t: Float64Array;
  /** Row by row from the lowest t, cols a row; NaN outside the outline. Wood length over film length. */
  readonly stretchMost: Float32Array;
  readonly stretchLeast: Float32Array;
  /** mm the wood along this line, from mid-wheelbase, is longer than the film. */
  readonly misfitMm: Float32Array;
  /** The principal stretch furthest from 1, and where. */
  readonly worstStretch: { readonly value: number; readonly at: SurfacePoint };
  /** The greatest misfit, mm with its sign, and where. */
  readonly worstMisfit: { readonly mm: Mm; readonly at: SurfacePoint };
}

/** mm between grid points, unless the caller asks for others. */
const GRID_MM = 4;

/** First fundamental form of the surface: squared length along, their product, squared length across (which is 1). */
export function metric(deck: Deck, face: Face, at: SurfaceStation, t: Mm): { e: number; f: number } {
  const flat = at.flatHalf;
  const along = 1 - at.bend * acrossRise(t, flat, at.across);
  const slope = fadeSlope(at.past, deck.concave.fade);
  if (slope === 0) return { e: along * along, f: 0 };
  // How y and h at this t change as the concave fades: by central difference of the share of depth.
  const share = fadeShare(at.past, deck.concave.fade);
  const step = 1e-5;
  const more = faceCurvature(deck, face, share + step);
  const less = faceCurvature(deck, face, Math.max(0, share - step));
  const by = slope / (step + Math.min(step, share));
  const dy = (acrossPlan(t, flat, more) - acrossPlan(t, flat, less)) * by;
  const dh = (acrossRise(t, flat, more) - acrossRise(t, flat, less)) * by;
  const turn = Math.max(0, Math.abs(t) - flat) * at.across * Math.sign(t);
  return { e: along * along + dy * dy + dh * dh, f: dy * Math.cos(turn) + dh * Math.sin(turn) };
}

/** Principal stretches and misfit of a film of this development on the face, on a grid over the outline. */
export function misfit(
  deck: Deck,
  face: Face,
  development: Development,
  gridMm: Mm = GRID_MM,
  railMargin: Mm = USUAL_RAIL_MARGIN,
): Misfit {
  const surface = makeSurface(deck, face);
  const flattening = makeFlattening(deck, face, development, railMargin);
  const ring = outlineOnSurface(deck, face, 0.05);
  let [s0, s1, t0, t1] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [s, t] of ring) {
    s0 = Math.min(s0, s);
    s1 = Math.max(s1, s);
    t0 = Math.min(t0, t);
    t1 = Math.max(t1, t);
  }
  const cols = Math.max(2, Math.ceil((s1 - s0) / gridMm) + 1);
  const rows = Math.max(2, Math.ceil((t1 - t0) / gridMm) + 1);
  const spread = (from: number, to: number, n: number) =>
    Float64Array.from({ length: n }, (_, i) => from + ((to - from) * i) / (n - 1));
  const s = spread(s0, s1, cols);
  const t = spread(t0, t1, rows);
  const stretchMost = new Float32Array(cols * rows).fill(Number.NaN);
  const stretchLeast = new Float32Array(cols * rows).fill(Number.NaN);
  const misfitMm = new Float32Array(cols * rows).fill(Number.NaN);
  let worstStretch = { value: 1, at: { s: 0, t: 0 } };
  let worstMisfit = { mm: 0, at: { s: 0, t: 0 } };
  const jumps = (['tail', 'nose'] as const)
    .flatMap((end) => {
      const { start, bend } = kickCurve(deck, face, end);
      return [start, start + bend].map((x) => (end === 'nose' ? x : -x));
    })
    .sort((a, b) => a - b);
  const down = [...jumps].reverse();
  const middle = s.findIndex((x) => x >= 0);
  const excess = new Float64Array(cols);
  for (let r = 0; r < rows; r++) {
    const across = t[r] as number;
    // Wood less film, integrated outward from mid-wheelbase by Simpson's rule in each grid step.
    const rate = (at: number) =>
      Math.sqrt(metric(deck, face, surface.stationAt(at), across).e) - flattening.rateAt(at);
    const between = (a: number, b: number) => {
      let sum = 0;
      let from = a;
      // κ jumps where a bend begins and ends: no panel may lie across.
      for (const at of a < b ? jumps : down)
        if (at > Math.min(a, b) && at < Math.max(a, b)) {
          sum += simpson(rate, from, at);
          from = at;
        }
      return sum + simpson(rate, from, b);
    };
    for (let c = middle, from = 0, sum = 0; c < cols; c++) {
      sum += between(from, s[c] as number);
      from = s[c] as number;
      excess[c] = sum;
    }
    for (let c = middle - 1, from = 0, sum = 0; c >= 0; c--) {
      sum += between(from, s[c] as number);
      from = s[c] as number;
      excess[c] = -sum;
    }
    for (let c = 0; c < cols; c++) {
      const at = { s: s[c] as number, t: across };
      if (!insideRing(ring, at.s, across)) continue;
      const film = flattening.rateAt(at.s);
      const { e, f } = metric(deck, face, surface.stationAt(at.s), across);
      const a = e / (film * film);
      const b = f / film;
      const spreadHalf = Math.hypot((a - 1) / 2, b);
      const most = Math.sqrt((a + 1) / 2 + spreadHalf);
      const least = Math.sqrt(Math.max(0, (a + 1) / 2 - spreadHalf));
      const i = r * cols + c;
      stretchMost[i] = most;
      stretchLeast[i] = least;
      misfitMm[i] = excess[c] as number;
      for (const value of [most, least])
        if (Math.abs(value - 1) > Math.abs(worstStretch.value - 1)) worstStretch = { value, at };
      if (Math.abs(excess[c] as number) > Math.abs(worstMisfit.mm))
        worstMisfit = { mm: excess[c] as number, at };
    }
  }
  return { s, t, stretchMost, stretchLeast, misfitMm, worstStretch, worstMisfit };
}

/** ∫ f from a to b, smooth between them, in 4 panels; the ends are taken just inside, since f may jump there. */
function simpson(f: (x: number) => number, a: number, b: number): number {
  const panels = 4;
  const h = (b - a) / panels;
  let sum = 0;
  for (let i = 0; i < panels; i++) {
    const x = a + i * h;
    sum += f(x + h * 1e-9) + 4 * f(x + h / 2) + f(x + h * (1 - 1e-9));
  }
  return (sum * h) / 6;
}
