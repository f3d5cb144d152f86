// Where ink lies, row by row and column by column: the fast twin of ../surveyPlain.ts. Rows of `pitch` bytes, a multiple of 16.

/** Sets `into[column]` to `y` for the columns whose first ink this vector has, and remembers them in `seen`. */
// @ts-ignore: decorator
@inline
function meet(fresh: v128, seen: usize, into: usize, column: i32, y: i32): void {
  v128.store(seen, v128.or(v128.load(seen), fresh));
  for (let half = 0; half < 2; half++) {
    let bits = half == 0 ? i64x2.extract_lane(fresh, 0) : i64x2.extract_lane(fresh, 1);
    const at = into + ((<usize>column + 64 * half) << 2);
    for (; bits != 0; bits &= bits - 1) store<i32>(at + (<usize>ctz(bits) << 2), y);
  }
}

/**
 * Rows that begin with row `y0` of the mask, downwards. By row: `counts` its ink, `left` and `right` its first and last inked column,
 * left alone where there is none. By column: `top` its first inked row; `seen`, a row of bits, the columns that had one. Of every
 * `step`-th row of the mask all columns are counted at once: bit k of their counts is a row of bits at `digits` + k × pitch.
 */
export function surveyRows(
  input: usize,
  pitch: i32,
  y0: i32,
  rows: i32,
  counts: usize,
  left: usize,
  right: usize,
  top: usize,
  seen: usize,
  step: i32,
  digits: usize,
): void {
  for (let row = 0; row < rows; row++) {
    const y = y0 + row;
    const base = input + <usize>row * pitch;
    const place = <usize>y << 2;
    let first = -1;
    let last = 0;
    let sum = i32x4.splat(0);
    for (let i = 0; i < pitch; i += 16) {
      const ink = v128.load(base + i);
      if (!v128.any_true(ink)) continue;
      if (first < 0) first = i;
      last = i;
      sum = i32x4.add(
        sum,
        i32x4.extadd_pairwise_i16x8_u(i16x8.extadd_pairwise_i8x16_u(i8x16.popcnt(ink))),
      );
      const fresh = v128.andnot(ink, v128.load(seen + i));
      if (v128.any_true(fresh)) meet(fresh, seen + i, top, i << 3, y);
    }
    if (first < 0) continue;
    store<i32>(
      counts + place,
      i32x4.extract_lane(sum, 0) +
        i32x4.extract_lane(sum, 1) +
        i32x4.extract_lane(sum, 2) +
        i32x4.extract_lane(sum, 3),
    );
    const low = load<i64>(base + first);
    const column = first << 3;
    store<i32>(
      left + place,
      column + <i32>(low != 0 ? ctz(low) : 64 + ctz(load<i64>(base + first + 8))),
    );
    const high = load<i64>(base + last + 8);
    store<i32>(
      right + place,
      (last << 3) + <i32>(high != 0 ? 127 - clz(high) : 63 - clz(load<i64>(base + last))),
    );
    if (y % step != 0) continue;
    for (let i = first; i <= last; i += 16) {
      let carry = v128.load(base + i);
      for (let at = digits + i; v128.any_true(carry); at += pitch) {
        const digit = v128.load(at);
        v128.store(at, v128.xor(digit, carry));
        carry = v128.and(carry, digit);
      }
    }
  }
}

/** The same rows upwards: `bottom` the last inked row of every column. Returns 0 once every column of `all` is in `seen`. */
export function surveyUp(
  input: usize,
  pitch: i32,
  y0: i32,
  rows: i32,
  bottom: usize,
  seen: usize,
  all: usize,
): i32 {
  for (let row = rows - 1; row >= 0; row--) {
    const base = input + <usize>row * pitch;
    for (let i = 0; i < pitch; i += 16) {
      const fresh = v128.andnot(v128.load(base + i), v128.load(seen + i));
      if (v128.any_true(fresh)) meet(fresh, seen + i, bottom, i << 3, y0 + row);
    }
  }
  for (let i = 0; i < pitch; i += 16)
    if (v128.any_true(v128.xor(v128.load(seen + i), v128.load(all + i)))) return 1;
  return 0;
}

/** The counts that `surveyRows` left in `digits`, times `step`, one for each bit of the rows' `pitch` bytes, into `columns`. */
export function columnCounts(digits: usize, pitch: i32, levels: i32, step: i32, columns: usize): void {
  memory.fill(columns, 0, (<usize>pitch) << 5);
  for (let level = 0; level < levels; level++)
    for (let i = 0; i < pitch; i += 8) {
      let bits = load<u64>(digits + <usize>(level * pitch + i));
      for (; bits != 0; bits &= bits - 1) {
        const at = columns + ((<usize>((i << 3) + <i32>ctz(bits))) << 2);
        store<i32>(at, load<i32>(at) + (step << level));
      }
    }
}
