import {
  type Deck,
  type Face,
  type KickCurve,
  kickCurve,
  makeSurface,
  outlineOnSurface,
  risePast,
  runPast,
  slopePast,
} from '../deck/index.ts';
import { pressTrouble } from '../sentences/index.ts';
import { done, type Mm, type Outcome } from '../units/index.ts';
import type { Calculation } from './calculation.ts';

export interface ReachInput {
  /** mm inside the frame, along the deck; the frame is centred over mid-wheelbase. */
  readonly frameLength: Mm;
  /** mm between the mesh and the highest wood of the face. */
  readonly offContact: Mm;
  /** Share of its length the mesh may be stretched: 0.03 is 3 %. */
  readonly maxStretch: number;
}

export interface EndReach {
  /** mm along the wood from mid-wheelbase that the mesh comes down to. */
  readonly reach: Mm;
  /** Mesh growth with the squeegee there. */
  readonly growth: number;
  /** It comes down to the very tip. */
  readonly toTip: boolean;
}

export interface Reach {
  readonly nose: EndReach;
  readonly tail: EndReach;
  /** Mesh growth along with the squeegee at mid-wheelbase; the film is made shorter by 1/(1 + this). */
  readonly growthAtMiddle: number;
  /** mm the frame lies over the flat of the face's centreline. */
  readonly frameHeight: Mm;
}

/** mm: reach is found to this. */
const FINE = 1e-6;
/** mm between the points tried before the fine search: growth may rise, fall and rise again along a kick. */
const STEP = 2;

/**
 * How far out along the kicks the mesh can be pressed down. The mesh is a string between the frame's ends, pressed down
 * at a point P of the centreline. On the bottom the kicks fall away from it: it runs from the near end to P, along the
 * wood to where the straight line from the far end touches it, then straight. On the top the board is a bowl, and both
 * runs are straight. growth(P) = path/F_L − 1; the reach is the furthest P before growth passes `maxStretch`.
 */
export function reach(deck: Deck, face: Face, input: ReachInput): Outcome<Calculation<Reach>> {
  const { frameLength, offContact, maxStretch } = input;
  if (!(offContact >= 0 && Number.isFinite(offContact))) return pressTrouble.offContactNoLength();
  if (!(maxStretch > 0 && maxStretch < 1)) return pressTrouble.stretchNoShare();
  const surface = makeSurface(deck, face);
  const half = frameLength / 2;
  let deckHalf = 0;
  let highest = 0;
  for (const [s, t] of outlineOnSurface(deck, face, 0.05)) {
    const p = surface.toSpace({ s, t });
    deckHalf = Math.max(deckHalf, Math.abs(p.x));
    highest = Math.max(highest, p.z);
  }
  if (!(half > deckHalf)) return pressTrouble.frameTooShort(frameLength, Math.round(deckHalf));
  // Seen from the mesh, the bottom's highest wood is its crown; the top's is the tips or the rails.
  const frameHeight = offContact + (face === 'bottom' ? 0 : highest);
  const paths = {
    nose: stringOver(kickCurve(deck, face, 'nose'), face, half, frameHeight),
    tail: stringOver(kickCurve(deck, face, 'tail'), face, half, frameHeight),
  };
  const growthAt = (end: 'nose' | 'tail', at: Mm) => paths[end](at) / frameLength - 1;
  const growthAtMiddle = growthAt('nose', 0);
  if (growthAtMiddle > maxStretch)
    return pressTrouble.stretchedAtMiddle((growthAtMiddle * 100).toFixed(2), (maxStretch * 100).toFixed(2));
  const find = (end: 'nose' | 'tail'): EndReach => {
    const tip = end === 'nose' ? surface.extent.nose : -surface.extent.tail;
    let good = 0;
    while (good < tip) {
      const next = Math.min(tip, good + STEP);
      if (growthAt(end, next) > maxStretch) {
        let bad = next;
        while (bad - good > FINE) {
          const middle = (good + bad) / 2;
          if (growthAt(end, middle) > maxStretch) bad = middle;
          else good = middle;
        }
        return { reach: good, growth: growthAt(end, good), toTip: false };
      }
      good = next;
    }
    return { reach: tip, growth: growthAt(end, tip), toTip: true };
  };
  return done({
    result: { nose: find('nose'), tail: find('tail'), growthAtMiddle, frameHeight },
    formula:
      face === 'bottom'
        ? 'path = |near end → P| + wood from P to where the line from the far end touches it + |touch → far end|; growth = path/F_L − 1'
        : 'path = |near end → P| + |P → far end|; growth = path/F_L − 1',
    assumptions: [
      'An estimate: a measured growth from a test print replaces it.',
      'The frame is centred over mid-wheelbase and level with the flat of the deck.',
      'The mesh is a string along the centreline, stretched evenly over its whole length, without friction.',
      face === 'bottom'
        ? 'Off-contact is measured over the crown; the kicks fall away from the mesh.'
        : 'Off-contact is measured over the highest wood of the face, tips or rails.',
    ],
  });
}

/** Length of the string pressed down at the centreline point `at` ≥ 0 of this end, between frame ends at ±half. */
function stringOver(curve: KickCurve, face: Face, half: Mm, frameHeight: Mm): (at: Mm) => Mm {
  /** Along and towards the mesh, mm. */
  const point = (at: Mm) => {
    const past = at - curve.start;
    return { x: curve.start + runPast(curve, past), z: risePast(curve, past) * (face === 'bottom' ? -1 : 1) };
  };
  const from = (x: Mm, p: { x: Mm; z: Mm }) => Math.hypot(x - p.x, frameHeight - p.z);
  if (face === 'top') return (at) => from(half, point(at)) + from(-half, point(at));
  // Over how much of the bend, going out, the wood still lies under the line from the far end: the line's slope down to
  // a point is less than the wood's own there until it touches.
  const touchesBefore = (past: Mm) => {
    const p = point(curve.start + past);
    return (frameHeight - p.z) / (half + p.x) <= Math.tan(slopePast(curve, past));
  };
  let touch = curve.bend;
  if (curve.bend > 0 && touchesBefore(curve.bend)) {
    let low = 0;
    let high = curve.bend;
    while (high - low > FINE / 100) {
      const middle = (low + high) / 2;
      if (touchesBefore(middle)) high = middle;
      else low = middle;
    }
    touch = high;
  }
  const lift = curve.start + touch;
  const farRun = from(-half, point(lift));
  return (at) => {
    const p = point(at);
    return at <= lift ? from(half, p) + from(-half, p) : from(half, p) + (at - lift) + farRun;
  };
}
