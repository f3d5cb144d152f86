import { explainedCores, type SoftPoints, softShares, thinCores } from '../raster/index.ts';
import { SURE } from './cores.ts';
import { type EdgeSolver, softPointsOf, solveEdge, withThinCores } from './edge.ts';
import { LABEL, type Labels } from './labels.ts';
import type { Mixer } from './mix.ts';
import type { Workspace } from './workspace.ts';

/** `withThinCores` of edge.ts, by the kernel where it is there: then the solver's own cores are changed, and returned. */
export function findThinCores(s: EdgeSolver, soft: Int32Array, space: Workspace): Uint8Array {
  const of: SoftPoints = softPointsOf(s);
  const found = thinCores(of, soft);
  if (!found) return withThinCores(s, soft, space);
  const { cores } = s;
  const { places } = found;
  const added = space.words('likely cores', places.length);
  let count = 0;
  for (let k = 0; k < places.length; k++) {
    const core = found.cores[k]!;
    const i = places[k]!;
    if ((core & SURE) === 0 && cores[i] === 0) added[count++] = i;
    cores[i] = core;
  }
  if (places.length === 0) return cores;
  // Those of the likely cores that the cores added with them do explain go again.
  for (const place of explainedCores(of, added.subarray(0, count)) ?? []) cores[place] = 0;
  return cores;
}

/** Of a window's soft points the shares that several planes have. */
export interface SharedPoints {
  readonly shared: Int32Array;
  /** A byte a plane. */
  readonly shares: Uint8Array;
}

/**
 * Solves the points `soft` that have no sure core. To `winners` goes, of every point of the window, the plane of its core, or else the plane that
 * has most of it; what several planes share is returned, the bytes of each point with a sum of 255.
 */
export function solveSoftPoints(
  s: EdgeSolver,
  soft: Int32Array,
  planeCount: number,
  winners: Uint8Array,
  space: Workspace,
): SharedPoints {
  const shared = space.words('shared', soft.length);
  const shares = space.bytes('shares', soft.length * planeCount);
  const count =
    softShares(softPointsOf(s), soft, planeCount, winners, shared, shares) ??
    solvePlain(s, soft, planeCount, winners, shared, shares);
  return {
    shared: shared.subarray(0, count),
    shares: shares.subarray(0, count * planeCount),
  };
}

/** The readable definition of `softShares`. */
export function solvePlain(
  s: EdgeSolver,
  soft: Int32Array,
  planeCount: number,
  winners: Uint8Array,
  shared: Int32Array,
  shares: Uint8Array,
): number {
  const { width } = s.picture;
  for (let i = 0; i < s.cores.length; i++) winners[i] = s.labels.plane[s.cores[i]! & LABEL] ?? 0;
  const parts = new Uint8Array(planeCount);
  let count = 0;
  let row = 0;
  let y = 0;
  for (let k = 0; k < soft.length; k++) {
    const i = soft[k]!;
    for (; i >= row + width; row += width) y++;
    if (s.cores[i]! & SURE) continue;
    solveEdge(s, i - row, y);
    sharesOf(s.mixer, s.labels, parts);
    let most = 0;
    for (let p = 1; p < planeCount; p++) if (parts[p]! > parts[most]!) most = p;
    winners[i] = most;
    if (parts[most] === 255) continue;
    for (let p = 0, at = count * planeCount; p < planeCount; p++, at++) shares[at] = parts[p]!;
    shared[count++] = i;
  }
  return count;
}

/** The shares as bytes, one a plane; what rounding leaves over goes to the first, so that the sum stays 255. */
function sharesOf({ parts, partLabel, share }: Mixer, labels: Labels, out: Uint8Array): void {
  out.fill(0);
  let left = 255;
  for (let p = 1; p < parts; p++) {
    const byte = Math.round(share[p]! * 255);
    out[labels.plane[partLabel[p]!]!]! += byte;
    left -= byte;
  }
  out[labels.plane[partLabel[0]!]!]! += left;
}
