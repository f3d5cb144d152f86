// Squared distances to bare points: the fast twin of ../../distance.ts's plain one, in 16-bit lanes, for limits of at most 254 points.

/** One step of a walk along the columns: bare points start anew at 0, inked ones are one farther than the row before. */
// @ts-ignore: decorator
@inline
function step(walk: usize, bits: usize, x: usize, most: v128): v128 {
  const each = i16x8(1, 2, 4, 8, 16, 32, 64, 128);
  const ink = i16x8.eq(v128.and(i16x8.splat(<i16>load<u8>(bits + (x >> 3))), each), each);
  const far = i16x8.min_u(i16x8.add(v128.load(walk + (x << 1)), i16x8.splat(1)), most);
  const next = v128.and(far, ink);
  v128.store(walk + (x << 1), next);
  return next;
}

/**
 * Rows `first` to `first + rows` of the `inRows` rows of bits, `rows` × `width` numbers to `out`, none above `far`. Rows beyond
 * the input are bare, or farther than `reach`. `walk` holds a row of 16-bit numbers, `columns` one for each row, both padded to a
 * multiple of 8; `line` such a row with `reach` + 9 more on either side. `out` may be written up to 32 bytes beyond its end.
 */
export function distanceRows(
  bits: usize,
  bitPitch: usize,
  inRows: i32,
  first: i32,
  rows: i32,
  width: i32,
  reach: i32,
  far: i32,
  walk: usize,
  columns: usize,
  line: usize,
  out: usize,
): void {
  const lanes = <usize>((width + 7) & ~7);
  const most = i16x8.splat(<i16>(reach + 1));
  const pitch = lanes << 1;
  memory.fill(walk, 0, pitch);
  for (let y = 0; y < first + rows; y++) {
    const row = bits + <usize>y * bitPitch;
    for (let x: usize = 0; x < lanes; x += 8) {
      const next = step(walk, row, x, most);
      if (y >= first) v128.store(columns + <usize>(y - first) * pitch + (x << 1), next);
    }
  }
  memory.fill(walk, 0, pitch);
  for (let y = inRows - 1; y >= first; y--) {
    const row = bits + <usize>y * bitPitch;
    for (let x: usize = 0; x < lanes; x += 8) {
      const next = step(walk, row, x, most);
      if (y < first + rows) {
        const at = columns + <usize>(y - first) * pitch + (x << 1);
        v128.store(at, i16x8.min_u(v128.load(at), next));
      }
    }
  }
  // Beside the row lies one bare point on either side, and nothing beyond it.
  const pad = <usize>(reach + 9) << 1;
  memory.fill(line, 255, pad + pitch + pad);
  const own = line + pad;
  const limit = i16x8.splat(<i16>far);
  for (let y = 0; y < rows; y++) {
    const column = columns + <usize>y * pitch;
    for (let x: usize = 0; x < lanes; x += 8) {
      const g = v128.load(column + (x << 1));
      v128.store(own + (x << 1), i16x8.mul(g, g));
    }
    store<u16>(own - 2, 0);
    for (let x = <usize>width; x < lanes + 8; x++) store<u16>(own + (x << 1), x == <usize>width ? 0 : 0xffff);
    const to = out + ((<usize>y * <usize>width) << 2);
    for (let x: usize = 0; x < lanes; x += 8) {
      const at = own + (x << 1);
      let near = i16x8.min_u(v128.load(at), limit);
      for (let d = 1; d <= reach; d++) {
        const square = i16x8.splat(<i16>(d * d));
        // No column d away can be nearer than d.
        if (!v128.any_true(i16x8.gt_u(near, square))) break;
        const by = <usize>d << 1;
        const beside = i16x8.min_u(v128.load(at - by), v128.load(at + by));
        near = i16x8.min_u(near, i16x8.add_sat_u(beside, square));
      }
      v128.store(to + (x << 2), i32x4.extend_low_i16x8_u(near));
      v128.store(to + (x << 2) + 16, i32x4.extend_high_i16x8_u(near));
    }
  }
}
