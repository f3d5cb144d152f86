import type { FilmPoint, Mm, Ring, SurfacePoint } from '../units/index.ts';
import { faceCurvature, flatHalf, riseIntegral } from './concave.ts';
import type { Deck, Face } from './deck.ts';
import { fadeShare } from './fade.ts';
import { type KickCurve, kickCurve } from './kickCurve.ts';
import { outlineOnSurface } from './outlineOnSurface.ts';

export type Development = 'centreline' | 'balanced';

/** A face laid flat: u to the nose, v across, mm; not yet corrected for the mesh. `toSurface` undoes `toFlat` to 1e-9. */
export interface Flattening {
  readonly development: Development;
  toFlat(p: SurfacePoint): FilmPoint;
  toSurface(p: FilmPoint): SurfacePoint;
  /** du/ds at a centreline length: 1 − m·κ. */
  rateAt(s: Mm): number;
}

/** Common practice: rails are rounded, so ink stays this far inside, mm. The mean height is taken over what is left. */
export const USUAL_RAIL_MARGIN = 6;
/** mm between nodes of the mean height through a bend; with straight lines between, u is within 1e-6 mm. */
const NODE_MM = 0.1;
const MOST_NODES = 4096;
/** mm: how true the rails are taken for that mean; coarser would show in u at 1e-4 mm. */
const RAIL_TOLERANCE = 1e-4;

/** Where the outline's rails are, least and greatest t, at each of the rising lengths `at`; NaN beyond the tips. */
function railsAt(ring: Ring, at: Float64Array): { low: Float64Array; high: Float64Array } {
  const low = new Float64Array(at.length).fill(Number.NaN);
  const high = new Float64Array(at.length).fill(Number.NaN);
  const first = at[0] as number;
  const step = at.length > 1 ? (at[1] as number) - first : 1;
  for (let i = 0; i < ring.length; i++) {
    const [a, p] = ring[i] as readonly [number, number];
    const [b, q] = ring[(i + 1) % ring.length] as readonly [number, number];
    if (a === b) continue;
    const from = Math.max(0, Math.ceil((Math.min(a, b) - first) / step - 1e-9));
    const to = Math.min(at.length - 1, Math.floor((Math.max(a, b) - first) / step + 1e-9));
    for (let n = from; n <= to; n++) {
      const t = p + ((q - p) * ((at[n] as number) - a)) / (b - a);
      if (!(t >= (low[n] as number))) low[n] = t;
      if (!(t <= (high[n] as number))) high[n] = t;
    }
  }
  return { low, high };
}

/** One bend tabulated: how much shorter than the centreline the flat length has become, at nodes `step` apart. */
interface Bend {
  readonly curve: KickCurve;
  readonly step: Mm;
  /** m·κ at the nodes, and its exact integral from the bend's beginning under straight lines between them. */
  readonly loss: Float64Array;
  readonly lost: Float64Array;
}

function tabulate(deck: Deck, face: Face, end: 'nose' | 'tail', railMargin: Mm, ring: Ring): Bend {
  const curve = kickCurve(deck, face, end);
  const panels = curve.bend > 0 ? Math.min(MOST_NODES, Math.max(1, Math.ceil(curve.bend / NODE_MM))) : 0;
  const step = panels ? curve.bend / panels : 0;
  const at = Float64Array.from({ length: panels + 1 }, (_, i) => curve.start + i * step);
  const mirrored = end === 'nose' ? ring : ring.map(([s, t]) => [-s, t] as const);
  const { low, high } = railsAt(mirrored, at);
  const flat = flatHalf(deck);
  const loss = new Float64Array(panels + 1);
  const lost = new Float64Array(panels + 1);
  for (let i = 0; i <= panels; i++) {
    const from = (low[i] as number) + railMargin;
    const to = (high[i] as number) - railMargin;
    if (panels && to > from) {
      const k = faceCurvature(deck, face, fadeShare(i * step, deck.concave.fade));
      const under = (t: number) => Math.sign(t) * riseIntegral(t, flat, k);
      loss[i] = (under(to) - under(from)) / (to - from) / curve.radius;
    }
    if (i > 0)
      lost[i] = (lost[i - 1] as number) + (step * ((loss[i - 1] as number) + (loss[i] as number))) / 2;
  }
  return { curve, step, loss, lost };
}

/** Loss of length, mm, `past` mm beyond the bend's beginning. */
function lostPast({ curve, step, loss, lost }: Bend, past: Mm): Mm {
  const last = lost.length - 1;
  if (past <= 0 || last === 0) return 0;
  if (past >= curve.bend) return lost[last] as number;
  const i = Math.min(last - 1, Math.floor(past / step));
  const x = past - i * step;
  const a = loss[i] as number;
  return (lost[i] as number) + x * (a + (((loss[i + 1] as number) - a) * x) / (2 * step));
}

function lossPast({ curve, step, loss }: Bend, past: Mm): number {
  const last = loss.length - 1;
  if (past <= 0 || last === 0 || past >= curve.bend) return 0;
  const i = Math.min(last - 1, Math.floor(past / step));
  const a = loss[i] as number;
  return a + ((loss[i + 1] as number) - a) * (past / step - i);
}

/** Length past the bend's beginning whose flat length is `flat`: the panel by bisection, then its quadratic. */
function pastAtFlat(bend: Bend, flat: Mm): Mm {
  const { curve, step, loss, lost } = bend;
  const last = lost.length - 1;
  if (flat <= 0 || last === 0) return flat;
  if (flat >= curve.bend - (lost[last] as number)) return flat + (lost[last] as number);
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (middle * step - (lost[middle] as number) <= flat) low = middle;
    else high = middle;
  }
  // flat = low·step − lost + (1 − a)·x − slope·x²/2, the root next to x = 0 in its stable form.
  const rest = flat - (low * step - (lost[low] as number));
  const a = loss[low] as number;
  const slope = ((loss[low + 1] as number) - a) / step;
  const rate = 1 - a;
  return low * step + (2 * rest) / (rate + Math.sqrt(Math.max(0, rate * rate - 2 * slope * rest)));
}

/**
 * Surface ↔ flat. `centreline`: u = s, true on the centreline. `balanced`: u(s) = ∫(1 − m·κ) ds with κ the bend's
 * curvature and m the mean height of the face off its centreline over the width inside `railMargin` there, so that the
 * error is shared between centre and rails. v = t in both.
 */
export function makeFlattening(
  deck: Deck,
  face: Face,
  development: Development,
  railMargin: Mm = USUAL_RAIL_MARGIN,
): Flattening {
  if (development === 'centreline')
    return {
      development,
      toFlat: ({ s, t }) => ({ u: s, v: t }),
      toSurface: ({ u, v }) => ({ s: u, t: v }),
      rateAt: () => 1,
    };
  const ring = outlineOnSurface(deck, face, RAIL_TOLERANCE);
  const nose = tabulate(deck, face, 'nose', railMargin, ring);
  const tail = tabulate(deck, face, 'tail', railMargin, ring);
  return {
    development,
    toFlat({ s, t }) {
      const bend = s < 0 ? tail : nose;
      const lost = lostPast(bend, Math.abs(s) - bend.curve.start);
      return { u: s < 0 ? s + lost : s - lost, v: t };
    },
    toSurface({ u, v }) {
      const bend = u < 0 ? tail : nose;
      const { start } = bend.curve;
      const s = start + pastAtFlat(bend, Math.abs(u) - start);
      return { s: u < 0 ? -s : s, t: v };
    },
    rateAt(s) {
      const bend = s < 0 ? tail : nose;
      return 1 - lossPast(bend, Math.abs(s) - bend.curve.start);
    },
  };
}
