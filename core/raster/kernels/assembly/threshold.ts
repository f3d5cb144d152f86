// Comparing a plane with a periodic tile of thresholds: the fast twin of ../thresholdPlain.ts.

// @ts-ignore: decorator
@inline
function inked(values: usize, thresholds: v128): i32 {
  return i8x16.bitmask(i8x16.ge_u(v128.load(values), thresholds));
}

/**
 * Inks each point of one row whose value is at least its threshold. `thresholds` is a row of the tile, repeated beyond `period`
 * for at least 16 bytes, or for 64 where the period is 64; the row begins at its place `at`. `values` must be readable 16 bytes
 * beyond its end. Bits beyond `width` of the `outPitch` bytes are 0.
 */
export function thresholdRow(
  values: usize,
  width: i32,
  thresholds: usize,
  at: i32,
  period: i32,
  to: usize,
  outPitch: usize,
): void {
  let x = 0;
  if (period == 64) {
    // The whole row's thresholds stay in registers.
    const t0 = v128.load(thresholds + <usize>at);
    const t1 = v128.load(thresholds + <usize>at + 16);
    const t2 = v128.load(thresholds + <usize>at + 32);
    const t3 = v128.load(thresholds + <usize>at + 48);
    for (; x + 64 <= width; x += 64) {
      const from = values + <usize>x;
      const low = inked(from, t0) | (inked(from + 16, t1) << 16);
      const high = inked(from + 32, t2) | (inked(from + 48, t3) << 16);
      store<i32>(to + <usize>(x >> 3), low);
      store<i32>(to + <usize>(x >> 3) + 4, high);
    }
  }
  while (x + 16 <= width) {
    // As many steps as there are before the tile's row begins anew.
    let steps = min((period - at + 15) >> 4, (width - x) >> 4);
    let place = thresholds + <usize>at;
    at += steps << 4;
    for (; steps > 0; steps--) {
      store<u16>(to + <usize>(x >> 3), <u16>inked(values + <usize>x, v128.load(place)));
      x += 16;
      place += 16;
    }
    if (at >= period) at -= period;
  }
  if (x < width) {
    const ink = inked(values + <usize>x, v128.load(thresholds + <usize>at));
    store<u16>(to + <usize>(x >> 3), <u16>(ink & ((1 << (width - x)) - 1)));
    x += 16;
  }
  for (let p = to + <usize>(x >> 3); p < to + outPitch; p += 2) store<u16>(p, 0);
}

/**
 * Rows `firstRow` to `firstRow + rows` of a plane. The tile has `period` columns and `depth` rows; below it the
 * same tile follows, moved `shift` columns to the left. Its rows are stored `tilePitch` bytes apart; see `thresholdRow`.
 */
export function thresholdRows(
  plane: usize,
  planePitch: usize,
  width: i32,
  firstRow: i32,
  rows: i32,
  tile: usize,
  tilePitch: usize,
  period: i32,
  depth: i32,
  shift: i32,
  out: usize,
  outPitch: usize,
): void {
  for (let row = 0; row < rows; row++) {
    const y = firstRow + row;
    thresholdRow(
      plane + <usize>row * planePitch,
      width,
      tile + <usize>(y % depth) * tilePitch,
      <i32>((<i64>(y / depth) * <i64>shift) % <i64>period),
      period,
      out + <usize>row * outPitch,
      outPitch,
    );
  }
}
