// Comparing a plane with a periodic tile of thresholds: the fast twin of ../thresholdPlain.ts.

/**
 * Inks each point whose value is at least its threshold. The tile has `period` columns and `depth` rows; below it the
 * same tile follows, moved `shift` columns to the left. Its rows are stored `tilePitch` bytes apart, repeated beyond `period`
 * for at least 16 bytes. `plane` must be readable 16 bytes beyond its end. Rows of `outPitch` bytes, bits beyond
 * `width` stay 0.
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
    const thresholds = tile + <usize>(y % depth) * tilePitch;
    let at = <i32>((<i64>(y / depth) * <i64>shift) % <i64>period);
    const from = plane + <usize>row * planePitch;
    const to = out + <usize>row * outPitch;
    let x = 0;
    for (; x + 16 <= width; x += 16) {
      const ink = i8x16.ge_u(v128.load(from + <usize>x), v128.load(thresholds + <usize>at));
      store<u16>(to + <usize>(x >> 3), <u16>i8x16.bitmask(ink));
      at += 16;
      if (at >= period) at -= period;
    }
    if (x < width) {
      const ink = i8x16.ge_u(v128.load(from + <usize>x), v128.load(thresholds + <usize>at));
      store<u16>(to + <usize>(x >> 3), <u16>(i8x16.bitmask(ink) & ((1 << (width - x)) - 1)));
      x += 16;
    }
    for (let p = to + <usize>(x >> 3); p < to + outPitch; p += 2) store<u16>(p, 0);
  }
}
