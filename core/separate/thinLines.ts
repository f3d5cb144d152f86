import type { SparseCoverage } from '../raster/index.ts';
import { pointsOf } from './changedShares.ts';

/**
 * Lines thinner than about a point have no point that is wholly theirs, so that their shares, read on straight lines between the
 * middles of points, may nowhere pass one half: such lines would break up. Here their points get the shares with which the reading
 * passes one half where the line's two edges lie.
 */

/** Points that a line is wide, measured along a row or a column: thinner ones are left to break, wider ones have points of their own. */
const THINNEST = 0.6;
const WIDEST = 1.5;
/** Points of a row or column that a line so thin may touch. */
const MOST = 4;
/** A middle share from which on a line of three points is taken to run straight along its row or column. */
const STRAIGHT = 0.95;
/** Of the points this far about a point at most so many are a thin line's; an area beside an edge has more. */
const RING = 2;
const FEW = 5;
/** Points about a thin line's point within which no four in a square are wholly its plane's. */
const NEAR = 3;
/** A line between two middles holds both of them just over one half, and is a point wide. */
const JUST_OVER = 131 / 255;

/** A point of the coverage that a thin line runs through: its place in `shared`, the line's plane, and the share it gets. */
export interface ThinPoint {
  readonly at: number;
  readonly plane: number;
  readonly share: number;
}

/** The points of thin lines, by their place in `shared`. */
export function thinPoints(coverage: SparseCoverage): ThinPoint[] {
  const { width, height, planeCount, winners, shared, shares } = coverage;
  const points = pointsOf(coverage);
  const shareAt = (x: number, y: number, plane: number): number => {
    if (x < 0 || y < 0 || x >= width || y >= height) return 0;
    const i = y * width + x;
    const at = points.find(i);
    return at < 0 ? (winners[i] === plane ? 255 : 0) : shares[at * planeCount + plane]!;
  };
  /** How many planes have a share of the k-th shared point. */
  const parties = (k: number): number => {
    let count = 0;
    for (let p = k * planeCount; p < (k + 1) * planeCount; p++) if (shares[p] !== 0) count++;
    return count;
  };
  const line = new Float64Array(2 * MOST);
  /** The shares of the plane along a row (dx 1) or column (dy 1) through (x, y), into `line`; null where it is no thin line. */
  const cross = (x: number, y: number, dx: 0 | 1, dy: 0 | 1, plane: number): Cross | null => {
    let from = 0;
    let sum = 0;
    const back: number[] = [];
    for (let n = 1; ; n++) {
      const share = shareAt(x - n * dx, y - n * dy, plane);
      if (share === 0) break;
      back.push(share);
      sum += share;
      if (share === 255 || sum > WIDEST * 255 || n > MOST) return null;
      from = -n;
    }
    let count = 0;
    for (const share of back.reverse()) line[count++] = share / 255;
    for (let n = 0; ; n++) {
      const share = shareAt(x + n * dx, y + n * dy, plane);
      if (share === 0) break;
      sum += share;
      if (share === 255 || sum > WIDEST * 255 || count === MOST) return null;
      line[count++] = share / 255;
    }
    const wide = sum / 255;
    return wide < THINNEST ? null : { from, count, wide };
  };
  /** Whether an area of the plane is near: then the point is of its tip or its corner, which runs out thin. */
  const hasArea = (x: number, y: number, plane: number): boolean => {
    const [right, bottom] = [Math.min(width - 2, x + NEAR - 1), Math.min(height - 2, y + NEAR - 1)];
    for (let v = Math.max(0, y - NEAR); v <= bottom; v++)
      for (let u = Math.max(0, x - NEAR); u <= right; u++) {
        const i = v * width + u;
        if ([i, i + 1, i + width, i + width + 1].every((j) => points.isPure(j, plane))) return true;
      }
    return false;
  };
  const found: ThinPoint[] = [];
  for (let k = 0; k < shared.length; k++) {
    const x = shared[k]! % width;
    const y = (shared[k]! - x) / width;
    if (x < RING || y < RING || x >= width - RING || y >= height - RING || parties(k) > 2) continue;
    let thin: ThinPoint | null = null;
    let others = 0;
    for (let plane = 0; plane < planeCount; plane++) {
      const share = shares[k * planeCount + plane]!;
      if (share === 0 || onRing(winners, width, shared[k]!, plane) > FEW) continue;
      const across = cross(x, y, 1, 0, plane);
      const own = across && placed(line, across);
      const down = cross(x, y, 0, 1, plane);
      if ((!across && !down) || hasArea(x, y, plane)) continue;
      others++;
      // The line lies across the way on which it is narrower.
      const value = down && (!across || down.wide < across.wide) ? placed(line, down) : own!;
      thin = { at: k, plane, share: value };
    }
    // Where two thin lines share a point neither can be told from the other's ground.
    if (thin && others === 1) found.push(thin);
  }
  return found;
}

/** How many of the sixteen points two away from point i are mostly the plane's. */
function onRing(winners: Uint8Array, width: number, i: number, plane: number): number {
  let count = 0;
  const up = i - 2 * width;
  const down = i + 2 * width;
  for (let d = -2; d <= 2; d++) {
    if (winners[up + d] === plane) count++;
    if (winners[down + d] === plane) count++;
  }
  for (let d = -width; d <= width; d += width) {
    if (winners[i + d - 2] === plane) count++;
    if (winners[i + d + 2] === plane) count++;
  }
  return count;
}

/** Where a point lies in the section through it: the first point of the line from it, how many there are, and how wide it is. */
interface Cross {
  readonly from: number;
  readonly count: number;
  readonly wide: number;
}

/** The share of the section's own point with which straight lines between middles pass one half at the line's edges. */
function placed(line: Float64Array, { from, count, wide }: Cross): number {
  const middle = middleOf(line, count, wide) + from;
  const left = middle - wide / 2;
  const right = middle + wide / 2;
  const first = Math.ceil(left);
  const last = Math.floor(right);
  if (first > last) return JUST_OVER;
  /** What the point nearest to an edge holds when it lies `far` inside of it. */
  const inner = (far: number) => (far >= 0.5 ? 1 : 0.5 / (1 - far));
  const held = (k: number) => Math.min(k === first ? inner(k - left) : 1, k === last ? inner(right - k) : 1);
  if (first <= 0 && last >= 0) return held(0);
  const near = first > 0 ? first : last;
  const far = first > 0 ? near - left : right - near;
  // Farther out than the point next to the edge nothing is left.
  return Math.abs(near) > 1 || far === 0 ? 0 : Math.max(0, (0.5 - held(near) * (1 - far)) / far);
}

/** The middle of the line, in points from the first of its `count` points. */
function middleOf(line: Float64Array, count: number, wide: number): number {
  // Along its row a line fills what lies between its outer points, and these from the inside.
  if (count < 3 || (count === 3 && line[1]! >= STRAIGHT))
    return (count - 1) / 2 + (count > 1 ? (line[count - 1]! - line[0]!) / 2 : 0);
  let sum = 0;
  for (let k = 0; k < count; k++) sum += k * line[k]!;
  return sum / wide;
}
