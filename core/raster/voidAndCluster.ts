/**
 * A dither tile with blue noise by void-and-cluster (R. Ulichney, "The void-and-cluster method for dither array
 * generation", 1993): every level's points are spread as evenly as the levels below allow. Returns the rank, 0 to size² − 1, of
 * each point of a size × size tile that wraps around. Takes time with size⁴; the tile in use is kept as data.
 */
export function voidAndCluster(size: number, seed: number): Uint32Array {
  const points = size * size;
  const kernel = gaussian(size);
  const energy = new Float64Array(points);
  const on = new Uint8Array(points);
  const flip = (i: number): void => {
    const sign = on[i] === 1 ? -1 : 1;
    on[i] = on[i]! ^ 1;
    const [ix, iy] = [i % size, Math.floor(i / size)];
    for (let y = 0, j = 0; y < size; y++) {
      const row = ((y - iy + size) % size) * size;
      for (let x = 0; x < size; x++, j++)
        energy[j] = energy[j]! + sign * kernel[row + ((x - ix + size) % size)]!;
    }
  };
  /** The fullest point that is on, or the emptiest that is off; the first among equals. */
  const extreme = (state: 0 | 1): number => {
    let best = -1;
    for (let i = 0; i < points; i++)
      if (
        on[i] === state &&
        (best < 0 || (state === 1 ? energy[i]! > energy[best]! : energy[i]! < energy[best]!))
      )
        best = i;
    return best;
  };

  // A tenth of the points at random, then the tightest cluster moves to the largest void until that changes nothing.
  let state = seed >>> 0;
  const start = Math.max(1, Math.floor(points / 10));
  for (let placed = 0; placed < start; ) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    const i = Math.floor((state / 4294967296) * points);
    if (on[i] === 1) continue;
    flip(i);
    placed++;
  }
  for (;;) {
    const cluster = extreme(1);
    flip(cluster);
    const gap = extreme(0);
    flip(gap);
    if (gap === cluster) break;
  }

  const ranks = new Uint32Array(points);
  const initial = on.slice();
  const kept = energy.slice();
  for (let rank = start - 1; rank >= 0; rank--) {
    const cluster = extreme(1);
    ranks[cluster] = rank;
    flip(cluster);
  }
  on.set(initial);
  energy.set(kept);
  // Past one half the bare points are the few: the largest void among them is where the energy of ink is least.
  for (let rank = start; rank < points; rank++) {
    const gap = extreme(0);
    ranks[gap] = rank;
    flip(gap);
  }
  return ranks;
}

/** exp(−d² / 2σ²) over a wrapping tile with σ = 1.5, Ulichney's choice. */
function gaussian(size: number): Float64Array {
  const out = new Float64Array(size * size);
  for (let y = 0; y < size; y++)
    for (let x = 0; x < size; x++) {
      const dx = Math.min(x, size - x);
      const dy = Math.min(y, size - y);
      out[y * size + x] = Math.exp(-(dx * dx + dy * dy) / (2 * 1.5 * 1.5));
    }
  return out;
}
