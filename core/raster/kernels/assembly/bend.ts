// Shares bent for carrying: the fast twin of `bend` in core/separate/placeEdges.ts, which says what for.

/** Bends `count` points' shares, `planes` bytes each, by the 256 bytes at `table`; their sums stay 255. */
export function bendShares(shares: usize, count: i32, planes: i32, table: usize): void {
  const end = shares + <usize>count * <usize>planes;
  for (let at = shares; at < end; at += <usize>planes) {
    const stop = at + <usize>planes;
    let sum = 0;
    for (let p = at; p < stop; p++) {
      const bent = load<u8>(table + <usize>load<u8>(p));
      store<u8>(p, bent);
      sum += <i32>bent;
    }
    if (sum == 255) continue;
    let left = 255;
    let most = at;
    for (let p = at; p < stop; p++) {
      const share = <i32>load<u8>(p);
      // As they were bent, all but those before it.
      if (share > <i32>load<u8>(most)) most = p;
      const part = (255 * share) / sum;
      store<u8>(p, <u8>part);
      left -= part;
    }
    store<u8>(most, <u8>(<i32>load<u8>(most) + left));
  }
}
