import type { Px } from '../units/index.ts';

/**
 * Coverage by plane (plane 0 is bare), in sum 255 at every point, told shortly: most points are one plane's alone. `winners` is
 * the plane that covers most of each point, the lowest among equals; where more than one plane shares a point, its place
 * (row × width + column) is in `shared`, ascending, and `shares` has its bytes, one a plane.
 */
export interface SparseCoverage {
  readonly width: Px;
  readonly height: Px;
  readonly planeCount: number;
  readonly winners: Uint8Array;
  readonly shared: Int32Array;
  readonly shares: Uint8Array;
}

/** Written out: one plane of bytes each. */
export function spreadPlanes({
  width,
  height,
  planeCount,
  winners,
  shared,
  shares,
}: SparseCoverage): Uint8Array[] {
  const planes = Array.from({ length: planeCount }, () => new Uint8Array(width * height));
  for (let i = 0; i < winners.length; i++) planes[winners[i]!]![i] = 255;
  for (let k = 0; k < shared.length; k++)
    for (let p = 0; p < planeCount; p++) planes[p]![shared[k]!] = shares[k * planeCount + p]!;
  return planes;
}

/** How many entries of the ascending list are below `place`. */
export function countBelow(shared: Int32Array, place: number): number {
  let low = 0;
  let high = shared.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (shared[middle]! < place) low = middle + 1;
    else high = middle;
  }
  return low;
}
