import type { SparseCoverage } from '../raster/index.ts';

/** New bytes, one a plane and in sum 255, for points of a coverage, by their place. */
export type Changes = ReadonlyMap<number, Uint8Array>;

/** The coverage with these changes; its own arrays are changed, and are the answer's where no point becomes a shared one. */
export function withChanges(coverage: SparseCoverage, changes: Changes): SparseCoverage {
  if (changes.size === 0) return coverage;
  const { planeCount, winners, shared, shares } = coverage;
  const fresh: number[] = [];
  const places = Int32Array.from(changes.keys()).sort();
  let at = 0;
  for (const i of places) {
    const own = changes.get(i)!;
    let most = 0;
    for (let p = 1; p < planeCount; p++) if (own[p]! > own[most]!) most = p;
    winners[i] = most;
    while (at < shared.length && shared[at]! < i) at++;
    if (shared[at] === i) shares.set(own, at * planeCount);
    else if (own[most]! < 255) fresh.push(i);
  }
  if (fresh.length === 0) return coverage;
  const all = new Int32Array(shared.length + fresh.length);
  const merged = new Uint8Array(all.length * planeCount);
  // All between two new points goes over in one piece.
  let from = 0;
  fresh.forEach((i, m) => {
    let to = from;
    while (to < shared.length && shared[to]! < i) to++;
    all.set(shared.subarray(from, to), from + m);
    merged.set(shares.subarray(from * planeCount, to * planeCount), (from + m) * planeCount);
    all[to + m] = i;
    merged.set(changes.get(i)!, (to + m) * planeCount);
    from = to;
  });
  all.set(shared.subarray(from), from + fresh.length);
  merged.set(shares.subarray(from * planeCount), (from + fresh.length) * planeCount);
  return { ...coverage, shared: all, shares: merged };
}

/** Reads single points of a coverage. */
export interface PointsOf {
  /** The place of point i in `shared`, or −1. */
  find(i: number): number;
  /** Whether the point is wholly the plane's. */
  isPure(i: number, plane: number): boolean;
}

/** Finds points by halving what `shared` has of a row. */
export function pointsOf({ width, height, winners, shared }: SparseCoverage): PointsOf {
  const rows = new Int32Array(height + 1);
  for (let k = 0, y = 0; y <= height; y++) {
    while (k < shared.length && shared[k]! < y * width) k++;
    rows[y] = k;
  }
  const find = (i: number): number => {
    const y = Math.floor(i / width);
    let low = rows[y]!;
    let high = rows[y + 1]!;
    while (low < high) {
      const middle = (low + high) >>> 1;
      if (shared[middle]! < i) low = middle + 1;
      else high = middle;
    }
    return low < rows[y + 1]! && shared[low] === i ? low : -1;
  };
  return { find, isPure: (i, plane) => winners[i] === plane && find(i) < 0 };
}

/** A point's colour: red, green and blue times alpha, and alpha, 0 to 255. */
export function colourOf(data: Uint8Array | Uint8ClampedArray, i: number): number[] {
  const alpha = data[4 * i + 3]!;
  return [0, 1, 2].map((c) => (data[4 * i + c]! * alpha) / 255).concat(alpha);
}
