// A plane of coverage enlarged and cut to dots: the fast twin of ../../enlarge.ts's plain rows.

import { thresholdRow } from './threshold';

/**
 * The plane's two rows at `above` and `below`, mixed by `share` of 2 × factor, to i32 sums at `line`, and whether any is above 0.
 * `line` has room for 4 more.
 */
function mixRows(above: usize, below: usize, across: i32, factor: i32, share: i32, line: usize): bool {
  const whole = i32x4.splat(2 * factor - share);
  const part = i32x4.splat(share);
  let any = i32x4.splat(0);
  for (let x = 0; x < across; x += 4) {
    const a = i32x4.extend_low_i16x8_u(i16x8.extend_low_i8x16_u(v128.load32_zero(above + <usize>x)));
    const b = i32x4.extend_low_i16x8_u(i16x8.extend_low_i8x16_u(v128.load32_zero(below + <usize>x)));
    let sum = i32x4.add(i32x4.mul(a, whole), i32x4.mul(b, part));
    const left = across - x;
    // Beyond the row lies what is not the plane's.
    if (left < 4) sum = v128.and(sum, i32x4.lt_s(i32x4(0, 1, 2, 3), i32x4.splat(left)));
    any = v128.or(any, sum);
    v128.store(line + (<usize>x << 2), sum);
  }
  return v128.any_true(any);
}

/**
 * The sums of a row as `width` bytes at `row`: between the middles of two points the value runs straight. Writes up to
 * factor + 16 bytes before and behind. Quotients in 32-bit floats are exact up to a factor of 128: a whole quotient is, and
 * another lies at least 1 / (4 factor²) from the next whole number, farther than rounding reaches.
 */
function spreadRow(line: usize, across: i32, factor: i32, row: usize, width: i32): void {
  const square: i32 = 4 * factor * factor;
  const full = f32x4.splat(<f32>square);
  const half = 2 * factor * factor;
  const odd = factor & 1;
  const start = odd ? 0 : 1;
  let x = -factor + ((factor - 1 + start) >> 1);
  let a = load<i32>(line);
  for (let left = -1; left < across && x < width; left++, x += factor) {
    const b = load<i32>(line + (<usize>min(left + 1, across - 1) << 2));
    const to = row + <usize>x;
    const base = a * 2 * factor + half;
    if (a == b) {
      const byte = i8x16.splat(<i8>(base / square));
      for (let i = 0; i < factor; i += 16) v128.store(to + <usize>i, byte);
    } else {
      const step = b - a;
      let sum = i32x4.add(i32x4.splat(base + step * start), i32x4.mul(i32x4.splat(2 * step), i32x4(0, 1, 2, 3)));
      const on = i32x4.splat(8 * step);
      for (let i = 0; i < factor; i += 4) {
        const value = i32x4.trunc_sat_f32x4_s(f32x4.div(f32x4.convert_i32x4_s(sum), full));
        const bytes = v128.shuffle<i8>(value, value, 0, 4, 8, 12, 0, 4, 8, 12, 0, 4, 8, 12, 0, 4, 8, 12);
        store<i32>(to + <usize>i, i32x4.extract_lane(bytes, 0));
        sum = i32x4.add(sum, on);
      }
    }
    a = b;
  }
}

/**
 * Rows `firstRow` to `firstRow + rows` of the enlarged plane as dots, `width` points each. The plane's row `planeTop` is at
 * `plane`; it has `down` rows in all. `line` holds across + 8 numbers, `row` width + 2 factor + 64 bytes of which the first
 * factor + 16 lie before it. See `thresholdRows` for the tile.
 */
export function screenRows(
  plane: usize,
  planeTop: i32,
  across: i32,
  down: i32,
  factor: i32,
  firstRow: i32,
  rows: i32,
  width: i32,
  line: usize,
  row: usize,
  tile: usize,
  tilePitch: usize,
  period: i32,
  depth: i32,
  shift: i32,
  out: usize,
  outPitch: usize,
): void {
  for (let n = 0; n < rows; n++) {
    const y = firstRow + n;
    // Twice the distance from the middle of the plane's row above, in enlarged points.
    const place = 2 * y + 1 - factor;
    const above = place < 0 ? 0 : place / (2 * factor);
    const below = place < 0 ? 0 : min(down - 1, above + 1);
    const share = max(0, place) - above * 2 * factor;
    const to = out + <usize>n * outPitch;
    const upper = plane + <usize>(above - planeTop) * <usize>across;
    const lower = plane + <usize>(below - planeTop) * <usize>across;
    if (!mixRows(upper, lower, across, factor, share, line)) {
      memory.fill(to, 0, outPitch);
      continue;
    }
    spreadRow(line, across, factor, row, width);
    thresholdRow(
      row,
      width,
      tile + <usize>(y % depth) * tilePitch,
      <i32>((<i64>(y / depth) * <i64>shift) % <i64>period),
      period,
      to,
      outPitch,
    );
  }
}
