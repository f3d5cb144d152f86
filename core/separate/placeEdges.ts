import { bendShares, type SparseCoverage } from '../raster/index.ts';
import type { Px } from '../units/index.ts';
import { thinPoints } from './thinLines.ts';

/**
 * Where art is carried to the films, coverages are read on straight lines between the middles of points, and an edge lies where
 * the line crosses one half. A straight edge that leaves a share f < ½ of its point covered lies f into that point; the line
 * from the full neighbour's middle crosses half there when the point holds 2f ⁄ (2f + 1) instead of f: with f as it is,
 * edges lie up to a twelfth of a point too near. Shares over ½ mirror that. So bytes are bent by this table before they are
 * carried; as amounts of ink they are meant unbent. Halves the mean displacement of edges in tests/reference/separation.
 */
const BENT = Uint8Array.from({ length: 256 }, (_, byte) => {
  const f = byte / 255;
  return Math.round(255 * (f < 0.5 ? (2 * f) / (2 * f + 1) : 1 / (3 - 2 * f)));
});

/** Bends the shares of one point, `count` bytes from `at` on; their sum stays 255. The readable definition of `bendShares`. */
export function bend(shares: Uint8Array, at: number, count: number): void {
  let sum = 0;
  for (let p = at; p < at + count; p++) {
    const bent = BENT[shares[p]!]!;
    shares[p] = bent;
    sum += bent;
  }
  if (sum === 255) return;
  // Where more than two inks meet, bent shares sum to more: they come back in proportion.
  let left = 255;
  let most = at;
  for (let p = at; p < at + count; p++) {
    if (shares[p]! > shares[most]!) most = p;
    shares[p] = Math.floor((255 * shares[p]!) / sum);
    left -= shares[p]!;
  }
  // Floors leave over less than one a plane.
  shares[most]! += left;
}

/** Gives the plane `share` of the point at `at`, and the others what is left in proportion; returns the plane that has most. */
function give(shares: Uint8Array, at: number, count: number, plane: number, share: number): number {
  const byte = Math.round(255 * share);
  const others = 255 - shares[at + plane]!;
  let left = 255 - byte;
  let most = plane;
  for (let p = 0; p < count; p++) {
    if (p === plane) continue;
    shares[at + p] = Math.floor(((255 - byte) * shares[at + p]!) / others);
    left -= shares[at + p]!;
  }
  shares[at + plane] = byte;
  for (let p = 0; p < count; p++) if (shares[at + p]! > shares[at + most]!) most = p;
  // Floors leave over less than one a plane.
  shares[at + most]! += left;
  let first = 0;
  for (let p = 1; p < count; p++) if (shares[at + p]! > shares[at + first]!) first = p;
  return first;
}

/**
 * Changes the coverage's shares so that edges lie in their places when it is carried, and of `coarse` art thin lines hold together;
 * returns it. Sums stay 255.
 */
export function placeEdges(coverage: SparseCoverage, coarse = false): SparseCoverage {
  const { shares, shared, winners, planeCount } = coverage;
  const thin = coarse ? thinPoints(coverage) : [];
  if (thin.length === 0 && bendShares(shares, planeCount, BENT)) return coverage;
  let next = 0;
  for (let k = 0; k < shared.length; k++) {
    const line = thin[next]?.at === k ? thin[next++] : undefined;
    const at = k * planeCount;
    if (line) winners[shared[k]!] = give(shares, at, planeCount, line.plane, line.share);
    else bend(shares, at, planeCount);
  }
  return coverage;
}

/** As `placeEdges`, for whole planes of coverage with rows of `width` points. */
export function placePlaneEdges(planes: readonly Uint8Array[], width: Px, coarse = false): void {
  const [bare] = planes;
  if (!bare || bare.length === 0) return;
  const coverage = placeEdges(sparseOf(planes, width), coarse);
  const { shared, shares, planeCount } = coverage;
  for (let k = 0; k < shared.length; k++)
    for (let p = 0; p < planeCount; p++) planes[p]![shared[k]!] = shares[k * planeCount + p]!;
}

/** The planes told shortly. */
function sparseOf(planes: readonly Uint8Array[], width: Px): SparseCoverage {
  const planeCount = planes.length;
  const points = planes[0]!.length;
  const winners = new Uint8Array(points);
  const places: number[] = [];
  for (let i = 0; i < points; i++) {
    let most = 0;
    for (let p = 1; p < planeCount; p++) if (planes[p]![i]! > planes[most]![i]!) most = p;
    winners[i] = most;
    if (planes[most]![i]! < 255) places.push(i);
  }
  const shared = Int32Array.from(places);
  const shares = new Uint8Array(shared.length * planeCount);
  for (let k = 0; k < shared.length; k++)
    for (let p = 0; p < planeCount; p++) shares[k * planeCount + p] = planes[p]![shared[k]!]!;
  return { width, height: points / width, planeCount, winners, shared, shares };
}
