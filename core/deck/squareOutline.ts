import { traceTrouble } from '../sentences/index.ts';
import { done, type Mm, type Outcome, type PlanPoint } from '../units/index.ts';
import { HOLE_CHOICES, type HoleChoice } from './clickedHoles.ts';
import type { Deck } from './deck.ts';
import { homography, similarity } from './homography.ts';
import { truckHoles } from './truckHoles.ts';

/** From a scan or photograph of a deck laid flat to its plan. */
export interface Squaring {
  /** Picture x, y (any unit) to plan, mm. */
  toPlan(x: number, y: number): PlanPoint;
  /** mm between the inner holes: as known, or as solved. */
  readonly wheelbase: Mm;
  /** Root mean square distance, mm, of the clicked holes from where the pattern has them. */
  readonly residual: Mm;
  readonly worst: Mm;
  /** `perspective`: the camera may stand askew. `square-on`: a scan, or a camera held square over the deck. */
  readonly model: 'perspective' | 'square-on';
  /** Measures left over when the map is found. 0: any four holes fit, and the residual says nothing. */
  readonly spare: number;
}

type Pair = readonly [number, number];

/** mm: wheelbases tried when it is not known, coarsely by this step and then by golden section. */
const WHEELBASES: readonly [Mm, Mm, Mm] = [250, 1000, 5];

/**
 * Squares a picture from its truck holes, clicked in the order of `truckHoles` (tail to nose, the lower of each pair
 * first, as the pictured face is seen, +y up; see `orderHoles`). With `wheelbase` null it is solved too: the one whose
 * pattern fits the clicks best. What can be told from which holes:
 * - `all`: perspective, wheelbase known or solved.
 * - `outer`: perspective with the wheelbase known; solved only for a picture taken square on.
 * - `tail`, `nose`: a picture taken square on, with the wheelbase known; four holes 54 mm apart say too little about
 *   perspective half a metre away.
 */
export function squareOutline(
  deck: Deck,
  clicked: readonly Pair[],
  wheelbase: Mm | null,
  which: HoleChoice = 'all',
): Outcome<Squaring> {
  const places = HOLE_CHOICES[which];
  const n = places.length;
  const count = n === 8 ? 'eight' : 'four';
  if (clicked.length !== n || !clicked.every(([x, y]) => Number.isFinite(x) && Number.isFinite(y)))
    return traceTrouble.holesMissing(n === 8 ? 'Eight' : 'Four', clicked.length, count);
  const oneTruck = which === 'tail' || which === 'nose';
  if (oneTruck && wheelbase === null) return traceTrouble.wheelbaseUnknown();
  const model = which === 'all' || (which === 'outer' && wheelbase !== null) ? 'perspective' : 'square-on';
  const fitAt = (wb: Mm) => {
    const holes = truckHoles({ ...deck, wheelbase: wb }, 'bottom');
    const to = places.map((i): Pair => [holes[i]!.x, holes[i]!.y]);
    const map = (model === 'perspective' ? homography : similarity)(clicked, to);
    if (!map) return null;
    const off = clicked.map(([x, y], i) => {
      const [u, v] = map(x, y);
      return Math.hypot(u - to[i]![0], v - to[i]![1]);
    });
    return { map, residual: Math.sqrt(off.reduce((sum, d) => sum + d * d, 0) / n), worst: Math.max(...off) };
  };
  const miss = (wb: Mm) => fitAt(wb)?.residual ?? Infinity;
  let best = wheelbase;
  if (best === null) {
    const [least, most, step] = WHEELBASES;
    best = least;
    for (let wb = least; wb <= most; wb += step) if (miss(wb) < miss(best)) best = wb;
    const golden = (Math.sqrt(5) - 1) / 2;
    let [low, high] = [best - step, best + step];
    while (high - low > 1e-7) {
      const [p, q] = [high - golden * (high - low), low + golden * (high - low)];
      if (miss(p) < miss(q)) high = q;
      else low = p;
    }
    best = (low + high) / 2;
  }
  const found = fitAt(best);
  if (!found || !Number.isFinite(found.residual)) return traceTrouble.holesInLine(count);
  const { map, residual, worst } = found;
  return done({
    wheelbase: best,
    residual,
    worst,
    model,
    spare: 2 * n - (model === 'perspective' ? 8 : 4) - (wheelbase === null ? 1 : 0),
    toPlan: (x, y) => {
      const [u, v] = map(x, y);
      return { x: u, y: v };
    },
  });
}
