import type { Picture, SparseCoverage } from '../raster/index.ts';
import { type Changes, colourOf, type PointsOf, pointsOf } from './changedShares.ts';

/**
 * Where three inks meet in a point, its colour alone often has several explanations: one of the three may look like a mix of the other
 * two. What lies about the point tells them apart. There its shares are those nearest to the shares about it that also give its colour.
 */

/** Share, of what lies about a point, from which on an ink takes part in the meeting. */
const PART = 0.09;
/** Encoded levels that the new shares may leave of the point's colour. */
const UNEXPLAINED = 14;
/** Encoded levels that a whole point of another ink than about it weighs: colours that differ by more than this say where an edge lies. */
const SURROUNDINGS = 15;
/** Weights of the points next door and of those at the corners. */
const BESIDE = 1;
const CORNER = 0.5;
/** Points about a point in which an ink's own colour is looked for. */
const REACH = 2;

/** The points `meetings` of the coverage solved anew; `ground` is the colour (times alpha, and alpha) of what is bare. */
export function settledMeetings(
  { data }: Picture,
  coverage: SparseCoverage,
  meetings: readonly number[],
  ground: readonly number[],
): Changes {
  const { width, planeCount, winners, shares } = coverage;
  const points = pointsOf(coverage);
  const about = new Float64Array(planeCount);
  const settled = new Map<number, Uint8Array>();
  for (const i of meetings) {
    about.fill(0);
    for (let dy = -1; dy <= 1; dy++)
      for (let dx = -1; dx <= 1; dx++) {
        if (dx === 0 && dy === 0) continue;
        const weight = (dx === 0 || dy === 0 ? BESIDE : CORNER) / (4 * BESIDE + 4 * CORNER);
        const j = i + dy * width + dx;
        const at = points.find(j);
        if (at < 0) about[winners[j]!]! += weight;
        else for (let p = 0; p < planeCount; p++) about[p]! += (weight * shares[at * planeCount + p]!) / 255;
      }
    const parties: Party[] = [];
    for (let plane = 0; plane < planeCount; plane++) {
      const pure = about[plane]! < PART ? -1 : pureNear(coverage, points, i, plane);
      if (pure >= 0) parties.push({ plane, share: about[plane]!, colour: colourOf(data, pure) });
    }
    if (parties.length < 2) continue;
    const sum = parties.reduce((n, { share }) => n + share, 0);
    const meeting = parties.map((party) => ({ ...party, share: party.share / sum }));
    // Between shapes that were drawn one over another a little of the ground shines through.
    if (!parties.some(({ plane }) => plane === 0)) meeting.push({ plane: 0, share: 0, colour: ground });
    const own = colourOf(data, i);
    const solved = solve(meeting, own);
    if (solved && unexplained(solved, own) <= UNEXPLAINED) settled.set(i, bytesOf(solved, planeCount));
  }
  return settled;
}

interface Party {
  readonly plane: number;
  /** Share of what lies about the point, then of the point itself. */
  readonly share: number;
  /** Red, green and blue times alpha, and alpha. */
  readonly colour: readonly number[];
}

/** Of the points `soft` (those without a sure core) the ones with three planes among the nine about them. */
export function meetingsOf({ width, height, winners }: SparseCoverage, soft: Int32Array): number[] {
  const found: number[] = [];
  for (const i of soft) {
    const x = i % width;
    const y = (i - x) / width;
    if (x === 0 || y === 0 || x === width - 1 || y === height - 1) continue;
    const a = winners[i]!;
    let b = a;
    let three = false;
    for (let j = i - width - 1; j <= i + width - 1 && !three; j += width)
      for (let u = j; u < j + 3; u++) {
        const c = winners[u]!;
        if (c === a || c === b) continue;
        if (b === a) b = c;
        else {
          three = true;
          break;
        }
      }
    if (three) found.push(i);
  }
  return found;
}

/** The nearest point about i within reach that is wholly the plane's, or −1. */
function pureNear({ width, height }: SparseCoverage, points: PointsOf, i: number, plane: number): number {
  const x = i % width;
  const y = (i - x) / width;
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  for (let v = Math.max(0, y - REACH); v <= Math.min(height - 1, y + REACH); v++)
    for (let u = Math.max(0, x - REACH); u <= Math.min(width - 1, x + REACH); u++) {
      const far = (u - x) ** 2 + (v - y) ** 2;
      if (far >= least || !points.isPure(v * width + u, plane)) continue;
      least = far;
      best = v * width + u;
    }
  return best;
}

/**
 * The shares s ≥ 0 of sum 1 for which |colours · s − own|² + SURROUNDINGS² |s − about|² is least: the equations with the sum's multiplier are
 * solved, and whoever comes out below nothing leaves. Null when fewer than two are left.
 */
function solve(parties: readonly Party[], own: readonly number[]): Party[] | null {
  let left = [...parties];
  while (left.length > 1) {
    const n = left.length;
    const rows = left.map((a, i) => {
      const row = left.map((b, j) => dot(a.colour, b.colour) + (i === j ? SURROUNDINGS * SURROUNDINGS : 0));
      return [...row, 1, dot(a.colour, own) + SURROUNDINGS * SURROUNDINGS * a.share];
    });
    rows.push([...left.map(() => 1), 0, 1]);
    const s = eliminate(rows);
    if (!s) return null;
    let least = 0;
    for (let i = 1; i < n; i++) if (s[i]! < s[least]!) least = i;
    if (s[least]! >= 0) return left.map((party, i) => ({ ...party, share: s[i]! }));
    left = left.filter((_, i) => i !== least);
  }
  return null;
}

/** Encoded levels between the point's colour and the mix. */
const unexplained = (parties: readonly Party[], own: readonly number[]): number =>
  Math.hypot(...own.map((v, c) => parties.reduce((left, { share, colour }) => left - share * colour[c]!, v)));

const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, v, i) => sum + v * b[i]!, 0);

/** Gaussian elimination with the largest pivots; each row ends with its right side. Null where rows depend on one another. */
function eliminate(rows: number[][]): number[] | null {
  const n = rows.length;
  for (let c = 0; c < n; c++) {
    let best = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(rows[r]![c]!) > Math.abs(rows[best]![c]!)) best = r;
    [rows[c], rows[best]] = [rows[best]!, rows[c]!];
    const pivot = rows[c]![c]!;
    if (Math.abs(pivot) < 1e-9) return null;
    for (let r = 0; r < n; r++) {
      if (r === c) continue;
      const by = rows[r]![c]! / pivot;
      for (let k = c; k <= n; k++) rows[r]![k]! -= by * rows[c]![k]!;
    }
  }
  return rows.map((row, i) => row[n]! / row[i]!);
}

/** The shares as bytes, one a plane, in sum 255. */
function bytesOf(solved: readonly Party[], count: number): Uint8Array {
  const bytes = new Uint8Array(count);
  let left = 255;
  for (const { plane, share } of solved) {
    bytes[plane] = Math.floor(255 * share);
    left -= bytes[plane]!;
  }
  const most = solved.reduce((a, b) => (b.share > a.share ? b : a));
  bytes[most.plane]! += left;
  return bytes;
}
