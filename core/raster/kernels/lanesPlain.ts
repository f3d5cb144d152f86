/**
 * A walk down a band of priced values, in steps of several rows: at each step it stands at one of `lanes` and moves to another by one of
 * 2 × `steepest` + 1 slopes, slope s by s − `steepest` lanes.
 */
export interface LaneWalk {
  /** Values across the band, and of each its kind, by rows. */
  readonly columns: number;
  readonly codes: Uint8Array;
  readonly lanes: number;
  /** Values from one lane to the next, and the first lane's place in them. */
  readonly laneCells: number;
  readonly firstCell: number;
  readonly steps: number;
  /** Looks a step. */
  readonly samples: number;
  /** Of each look of each step its row; of each slope and look how many values it lies aside of its lane. */
  readonly places: Int32Array;
  readonly offsets: Int32Array;
  readonly steepest: number;
  /** How much a slope may change from one step to the next, and the price of each such change. */
  readonly sharpest: number;
  readonly turn: number;
  /** What a look costs, by slope and kind, and how many kinds there are. */
  readonly prices: Float64Array;
  readonly kinds: number;
}

/** By [slope, lane]: the least price of standing there after the last step, and for each step the slope before. */
export interface LanesWalked {
  readonly best: Float64Array;
  readonly came: Int8Array;
}

/** 1 for each of the rows whose values are all of one kind. */
function flatRows(codes: Uint8Array, columns: number): Uint8Array {
  const flat = new Uint8Array(codes.length / columns);
  for (let p = 0, at = 0; p < flat.length; p++, at += columns) {
    const value = codes[at];
    let q = 0;
    while (q < columns && codes[at + q] === value) q++;
    flat[p] = q === columns ? 1 : 0;
  }
  return flat;
}

/** The readable definition of `walkLanes`. */
export function walkLanesPlain(walk: LaneWalk): LanesWalked {
  const { columns, codes, lanes, laneCells, steps, samples, steepest, sharpest } = walk;
  const slopes = 2 * steepest + 1;
  const flat = flatRows(codes, columns);
  // edge[slope, lane]: what a step from that lane costs. Lanes the step would leave the band from hold nothing of use.
  const edge = new Float64Array(lanes * slopes);
  const edgeCosts = (i: number) => {
    const places = walk.places.subarray(i * samples, (i + 1) * samples);
    const alike = places.every((place) => flat[place] === 1);
    for (let s = 0; s < slopes; s++) {
      const from = s * lanes + Math.max(0, steepest - s);
      const to = s * lanes + Math.min(lanes, lanes + steepest - s);
      const prices = walk.prices.subarray(s * walk.kinds, (s + 1) * walk.kinds);
      if (alike) {
        // All lanes cost the same: most of a band is far from any edge.
        let sum = 0;
        for (let k = 0; k < samples; k++) sum += prices[codes[places[k]! * columns]!]!;
        edge.fill(sum, from, to);
        continue;
      }
      edge.fill(0, from, to);
      for (let k = 0; k < samples; k++) {
        let at = places[k]! * columns + walk.offsets[s * samples + k]!;
        at += (from - s * lanes) * laneCells + walk.firstCell;
        for (let l = from; l < to; l++, at += laneCells) edge[l]! += prices[codes[at]!]!;
      }
    }
  };
  // best[slope, lane]: cheapest way to stand at `lane` having come with `slope`.
  let best = new Float64Array(lanes * slopes).fill(Infinity);
  best.fill(0, steepest * lanes, (steepest + 1) * lanes);
  let next = new Float64Array(lanes * slopes);
  const least = new Float64Array(lanes);
  const came = new Int8Array(steps * lanes * slopes);
  for (let i = 0; i < steps; i++) {
    const back = i * lanes * slopes;
    edgeCosts(i);
    next.fill(Infinity);
    for (let s = 0; s < slopes; s++) {
      least.fill(Infinity);
      const low = Math.max(0, steepest - s);
      const high = Math.min(lanes, lanes + steepest - s);
      const land = s * lanes + s - steepest;
      for (let before = Math.max(0, s - sharpest); before <= Math.min(slopes - 1, s + sharpest); before++) {
        const turning = walk.turn * Math.abs(before - s);
        const row = before * lanes;
        for (let l = low; l < high; l++) {
          const price = best[row + l]! + turning;
          if (price >= least[l]!) continue;
          least[l] = price;
          came[back + land + l] = before;
        }
      }
      for (let l = low; l < high; l++) next[land + l] = least[l]! + edge[s * lanes + l]!;
    }
    [best, next] = [next, best];
  }
  return { best, came };
}
