/** How many pieces of at most `capacity` cover `length` when neighbours share `overlap`; same unit for all. Infinity when none do. */
export function piecesFor(length: number, capacity: number, overlap: number): number {
  if (length <= capacity) return 1;
  if (capacity < 2 * overlap || capacity <= overlap) return Infinity;
  return 1 + Math.ceil((length - capacity) / (capacity - overlap));
}

export interface Spans {
  /** First pixel of each shared strip; strips are `overlap` long. Piece i runs from strip i - 1's start to strip i's end. */
  readonly seams: readonly number[];
  /** Sum of the seams' costs. */
  readonly cost: number;
}

/**
 * Where the fewest pieces of at most `capacity` meet so that the seams cost least. `cost(start)` is the price of a shared
 * strip beginning at that pixel; `grid` is the spacing of places tried. Exact over that grid, by dynamic programming:
 * strips never touch each other, and every piece fits. Among equals the more even split wins.
 */
export function cheapestSpans(
  length: number,
  capacity: number,
  overlap: number,
  grid: number,
  cost: (start: number) => number,
): Spans {
  const pieces = piecesFor(length, capacity, overlap);
  if (pieces === 1) return { seams: [], cost: 0 };
  if (!Number.isFinite(pieces)) throw new Error('The pieces are too short for their overlap.');
  const places: number[] = [];
  for (let at = 0; at + overlap <= length; at += grid) places.push(at);
  // Places that a tight fit needs: each seam as early and as late as the capacity allows.
  for (let i = 1; i < pieces; i++) {
    const late = i * (capacity - overlap);
    const early = length - overlap - (pieces - i) * (capacity - overlap);
    for (const at of [late, early]) if (at >= 0 && at + overlap <= length) places.push(at);
  }
  places.sort((a, b) => a - b);
  // By index: what is made from an iterable takes several times as long.
  const price = new Float64Array(places.length);
  for (let p = 0; p < places.length; p++) price[p] = cost(places[p]!);
  const even = (i: number, at: number) => {
    const wish = ((length - overlap) * i) / pieces;
    return (1e-6 * Math.abs(at - wish)) / length;
  };
  let best = new Float64Array(places.length).fill(Infinity);
  for (let p = 0; p < places.length; p++)
    if (places[p]! + overlap <= capacity) best[p] = price[p]! + even(1, places[p]!);
  // By seam but the last: the least cost of it and all before it, by its place.
  const before: Float64Array<ArrayBuffer>[] = [];
  // Places of the window from the cheapest one on, each cheaper than all after it: what is least slides along with the window.
  const least = new Int32Array(places.length);
  for (let i = 2; i < pieces; i++) {
    const next = new Float64Array(places.length).fill(Infinity);
    let first = 0;
    // Strips before `near` do not touch the one at p.
    let near = 0;
    let [head, tail] = [0, 0];
    for (let p = 0; p < places.length; p++) {
      while (places[p]! - places[first]! + overlap > capacity) first++;
      for (; near < p && places[p]! - places[near]! >= overlap; near++) {
        while (tail > head && best[least[tail - 1]!]! >= best[near]!) tail--;
        least[tail++] = near;
      }
      while (head < tail && least[head]! < first) head++;
      if (head < tail) next[p] = best[least[head]!]! + price[p]! + even(i, places[p]!);
    }
    before.push(best);
    best = next;
  }
  let end = -1;
  for (let p = 0; p < places.length; p++) {
    if (length - places[p]! > capacity) continue;
    if (best[p]! < (end < 0 ? Infinity : best[end]!)) end = p;
  }
  if (end < 0) throw new Error('No place for the seams although the count says there is one.');
  const total = best[end]!;
  const seams = [places[end]!];
  for (let i = before.length - 1; i >= 0; i--) {
    // The first of those that cost the sum that was found.
    const at = places[end]!;
    const sum = best[end]!;
    best = before[i]!;
    let q = 0;
    while (at - places[q]! + overlap > capacity || best[q]! + price[end]! + even(i + 2, at) !== sum) q++;
    end = q;
    seams.unshift(places[end]!);
  }
  return { seams, cost: total };
}
