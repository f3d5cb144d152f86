import type { Mm, Ring } from '../units/index.ts';
import { ringArea } from './outline.ts';

export type Pair = readonly [number, number];
/** One stretch of line as a polygon's points, mm, +y up; closed ones do not repeat their first point. */
export interface Piece {
  readonly points: readonly Pair[];
  readonly closed: boolean;
}

/** Ends nearer than this, mm, are one point: drawing programs and rounding leave such gaps, a saw does not see them. */
export const HEALED_GAP = 0.2;
/** mm between a drawn curve and its polygon. */
export const CURVE_TOLERANCE = 0.01;
/** Points nearer than this, mm, to the one before add nothing. */
const SAME_POINT = 0.001;
/** Far more than an outline is ever drawn in, and soon joined. */
export const MOST_PIECES = 4000;

const apart = (a: Pair, b: Pair): Mm => Math.hypot(a[0] - b[0], a[1] - b[1]);
const first = (p: readonly Pair[]): Pair => p[0] as Pair;
const last = (p: readonly Pair[]): Pair => p[p.length - 1] as Pair;

/** Points of a cubic after its first, at most `CURVE_TOLERANCE` off when `scale` turns its units into mm. */
export function cubicPoints(a: Pair, b: Pair, c: Pair, d: Pair, scale: number, into: Pair[]): void {
  const bow = Math.max(
    Math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1]),
    Math.hypot(b[0] - 2 * c[0] + d[0], b[1] - 2 * c[1] + d[1]),
  );
  // A cubic's second derivative is at most 6·bow, and a chord over 1/n strays by at most an eighth of it over n².
  const n = Math.min(2000, Math.max(1, Math.ceil(Math.sqrt((0.75 * bow * scale) / CURVE_TOLERANCE))));
  for (let i = 1; i <= n; i++) {
    const p = i / n;
    const q = 1 - p;
    const [e, f, g, h] = [q * q * q, 3 * q * q * p, 3 * q * p * p, p * p * p];
    into.push([e * a[0] + f * b[0] + g * c[0] + h * d[0], e * a[1] + f * b[1] + g * c[1] + h * d[1]]);
  }
}

/** Joins open pieces end to end, nearest first, where the gap is small, and closes what then meets itself. */
export function joinPieces(pieces: readonly Piece[]): Piece[] {
  const closed = pieces.filter((p) => p.closed);
  const open = pieces.filter((p) => !p.closed && p.points.length > 1).map((p) => p.points);
  while (open.length > 0) {
    let chain = open.pop() as readonly Pair[];
    for (;;) {
      const loop = apart(first(chain), last(chain));
      let best = { gap: HEALED_GAP, at: -1, turned: false };
      for (let i = 0; i < open.length; i++) {
        const next = open[i] as readonly Pair[];
        const toFirst = apart(last(chain), first(next));
        const toLast = apart(last(chain), last(next));
        if (toFirst < best.gap) best = { gap: toFirst, at: i, turned: false };
        if (toLast < best.gap) best = { gap: toLast, at: i, turned: true };
      }
      if (chain.length > 2 && loop <= HEALED_GAP && (best.at < 0 || loop <= best.gap)) {
        closed.push({ points: loop === 0 || loop < HEALED_GAP ? chain.slice(0, -1) : chain, closed: true });
        break;
      }
      if (best.at < 0) {
        // Nothing goes on from this end: try the other once, then it stays open.
        const back = [...chain].reverse();
        const more = open.some(
          (p) => apart(last(back), first(p)) < HEALED_GAP || apart(last(back), last(p)) < HEALED_GAP,
        );
        if (!more) {
          closed.push({ points: chain, closed: false });
          break;
        }
        chain = back;
        continue;
      }
      const [next] = open.splice(best.at, 1) as [readonly Pair[]];
      chain = [...chain, ...(best.turned ? [...next].reverse() : next).slice(1)];
    }
  }
  return closed;
}

/** Without points that repeat the one before, the ring's end included. */
export function withoutRepeats(points: readonly Pair[]): Pair[] {
  const kept: Pair[] = [];
  for (const p of points) if (kept.length === 0 || apart(last(kept), p) > SAME_POINT) kept.push(p);
  while (kept.length > 1 && apart(first(kept), last(kept)) <= SAME_POINT) kept.pop();
  return kept;
}

export const areaOf = (piece: Piece): number => Math.abs(ringArea(piece.points as Ring));

/** Longer side of a piece's box, mm. */
export function spanOf({ points }: Piece): Mm {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    x0 = Math.min(x0, x);
    y0 = Math.min(y0, y);
    x1 = Math.max(x1, x);
    y1 = Math.max(y1, y);
  }
  return Math.max(x1 - x0, y1 - y0);
}
