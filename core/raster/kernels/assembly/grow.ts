// Disc growth and shrinking on packed rows, 128 bits at a time: the fast twin of ../growPlain.ts, whose comment states
// the scheme. Pointers are bytes; accumulators have a guard of 16 zero bytes on either side.

/** The words before those at `p`: lane i holds word i − 1. */
// @ts-ignore: decorator
@inline
function before(p: usize): v128 {
  return v128.load(p - 4);
}
// @ts-ignore: decorator
@inline
function after(p: usize): v128 {
  return v128.load(p + 4);
}

// @ts-ignore: decorator
@inline
function wider(p: usize, k: i32): v128 {
  const w = v128.load(p);
  const b = before(p);
  const a = after(p);
  let sum = v128.or(
    v128.or(w, v128.or(i32x4.shl(w, 1), i32x4.shr_u(w, 1))),
    v128.or(i32x4.shr_u(b, 31), i32x4.shl(a, 31)),
  );
  if (k > 1)
    sum = v128.or(
      sum,
      v128.or(
        v128.or(i32x4.shl(w, 2), i32x4.shr_u(w, 2)),
        v128.or(i32x4.shr_u(b, 30), i32x4.shl(a, 30)),
      ),
    );
  if (k > 2)
    sum = v128.or(
      sum,
      v128.or(
        v128.or(i32x4.shl(w, 3), i32x4.shr_u(w, 3)),
        v128.or(i32x4.shr_u(b, 29), i32x4.shl(a, 29)),
      ),
    );
  return sum;
}

// @ts-ignore: decorator
@inline
function narrower(p: usize, k: i32): v128 {
  const w = v128.load(p);
  const b = before(p);
  const a = after(p);
  let sum = v128.and(
    w,
    v128.and(
      v128.or(i32x4.shl(w, 1), i32x4.shr_u(b, 31)),
      v128.or(i32x4.shr_u(w, 1), i32x4.shl(a, 31)),
    ),
  );
  if (k > 1)
    sum = v128.and(
      sum,
      v128.and(
        v128.or(i32x4.shl(w, 2), i32x4.shr_u(b, 30)),
        v128.or(i32x4.shr_u(w, 2), i32x4.shl(a, 30)),
      ),
    );
  if (k > 2)
    sum = v128.and(
      sum,
      v128.and(
        v128.or(i32x4.shl(w, 3), i32x4.shr_u(b, 29)),
        v128.or(i32x4.shr_u(w, 3), i32x4.shl(a, 29)),
      ),
    );
  return sum;
}

function growWith(from: usize, to: usize, bytes: usize, k: i32, up: usize, down: usize): void {
  if (k == 1)
    for (let i: usize = 0; i < bytes; i += 16)
      v128.store(to + i, v128.or(wider(from + i, 1), v128.or(v128.load(up + i), v128.load(down + i))));
  else if (k == 2)
    for (let i: usize = 0; i < bytes; i += 16)
      v128.store(to + i, v128.or(wider(from + i, 2), v128.or(v128.load(up + i), v128.load(down + i))));
  else
    for (let i: usize = 0; i < bytes; i += 16)
      v128.store(to + i, v128.or(wider(from + i, 3), v128.or(v128.load(up + i), v128.load(down + i))));
}

function shrinkWith(from: usize, to: usize, bytes: usize, k: i32, up: usize, down: usize): void {
  if (k == 1)
    for (let i: usize = 0; i < bytes; i += 16)
      v128.store(to + i, v128.and(narrower(from + i, 1), v128.and(v128.load(up + i), v128.load(down + i))));
  else if (k == 2)
    for (let i: usize = 0; i < bytes; i += 16)
      v128.store(to + i, v128.and(narrower(from + i, 2), v128.and(v128.load(up + i), v128.load(down + i))));
  else
    for (let i: usize = 0; i < bytes; i += 16)
      v128.store(to + i, v128.and(narrower(from + i, 3), v128.and(v128.load(up + i), v128.load(down + i))));
}

// @ts-ignore: decorator
@inline
const BLANK: u8 = 0;
// @ts-ignore: decorator
@inline
const MIXED: u8 = 1;
// @ts-ignore: decorator
@inline
const FULL: u8 = 2;

/** Whether a stretch of a row is bare, all ink or neither; mixed stretches tell at their first vectors. */
function kindOf(p: usize, bytes: usize): u8 {
  const end = p + bytes;
  if (v128.any_true(v128.load(p))) {
    for (; p < end; p += 16) if (!i32x4.all_true(i32x4.eq(v128.load(p), i32x4.splat(-1)))) return MIXED;
    return FULL;
  }
  for (; p < end; p += 16) if (v128.any_true(v128.load(p))) return MIXED;
  return BLANK;
}

/** One stretch of one row: `from` to `from + bytes` of row `y`, into `acc` or `other`; returns which. */
function growStretch(
  input: usize,
  pitch: usize,
  from: usize,
  bytes: usize,
  y: i32,
  inRows: i32,
  half: usize,
  reach: i32,
  acc: usize,
  other: usize,
  zero: usize,
): usize {
  const base = input + from;
  memory.copy(acc, base + <usize>y * pitch, bytes);
  for (let v = 1; v <= reach + 1; v++) {
    const h = load<i32>(half + ((<usize>v - 1) << 2));
    let step = v <= reach ? h - load<i32>(half + (<usize>v << 2)) : h;
    const up = v <= reach && y - v >= 0 ? base + <usize>(y - v) * pitch : zero;
    const down = v <= reach && y + v < inRows ? base + <usize>(y + v) * pitch : zero;
    if (step == 0 && v < reach && load<i32>(half + ((<usize>v + 1) << 2)) == h) {
      // Two rows above and two below that need no growth between them, in one go.
      v++;
      const up2 = y - v >= 0 ? base + <usize>(y - v) * pitch : zero;
      const down2 = y + v < inRows ? base + <usize>(y + v) * pitch : zero;
      for (let i: usize = 0; i < bytes; i += 16)
        v128.store(
          acc + i,
          v128.or(
            v128.or(v128.load(acc + i), v128.or(v128.load(up + i), v128.load(down + i))),
            v128.or(v128.load(up2 + i), v128.load(down2 + i)),
          ),
        );
    } else if (step == 0) {
      for (let i: usize = 0; i < bytes; i += 16)
        v128.store(acc + i, v128.or(v128.load(acc + i), v128.or(v128.load(up + i), v128.load(down + i))));
    } else {
      while (step > 0) {
        const k = min(step, 3);
        step -= k;
        const last = step == 0;
        growWith(acc, other, bytes, k, last ? up : zero, last ? down : zero);
        const swap = acc;
        acc = other;
        other = swap;
      }
    }
  }
  return acc;
}

/** The same for shrinking; all rows within reach exist. */
function shrinkStretch(
  input: usize,
  pitch: usize,
  from: usize,
  bytes: usize,
  y: i32,
  half: usize,
  reach: i32,
  acc: usize,
  other: usize,
): usize {
  const base = input + from;
  memory.copy(acc, base + <usize>y * pitch, bytes);
  for (let v = 1; v <= reach + 1; v++) {
    const h = load<i32>(half + ((<usize>v - 1) << 2));
    let step = v <= reach ? h - load<i32>(half + (<usize>v << 2)) : h;
    const rows = v <= reach;
    const up = base + <usize>(y - v) * pitch;
    const down = base + <usize>(y + v) * pitch;
    if (step == 0 && v < reach && load<i32>(half + ((<usize>v + 1) << 2)) == h) {
      v++;
      const up2 = up - pitch;
      const down2 = down + pitch;
      for (let i: usize = 0; i < bytes; i += 16)
        v128.store(
          acc + i,
          v128.and(
            v128.and(v128.load(acc + i), v128.and(v128.load(up + i), v128.load(down + i))),
            v128.and(v128.load(up2 + i), v128.load(down2 + i)),
          ),
        );
    } else if (step == 0) {
      if (rows)
        for (let i: usize = 0; i < bytes; i += 16)
          v128.store(acc + i, v128.and(v128.load(acc + i), v128.and(v128.load(up + i), v128.load(down + i))));
    } else {
      while (step > 0) {
        const k = min(step, 3);
        step -= k;
        // What is shrunk lies inside what it was: ANDing with that changes nothing.
        const last = step == 0 && rows;
        shrinkWith(acc, other, bytes, k, last ? up : acc, last ? down : acc);
        const swap = acc;
        acc = other;
        other = swap;
      }
    }
  }
  return acc;
}

/**
 * Output rows `first` to `first + rows` of an input of `inRows` rows; rows beyond the input are bare. `bytes` a row, a multiple of
 * 16, of which `words` 32-bit words are used and the last is cut to `tail`. `half` holds reach + 1 half-widths. Works in
 * stretches of `block` bytes with `halo` bytes on either side, both multiples of 16 and `halo` at least reach points, so that the
 * rows a disc needs stay in the first cache; bare and solid stretches are not computed. `a`, `b` and `zero` (zeros) hold block +
 * 2 halo bytes with 16 more on either side; `kinds` inRows bytes.
 */
export function growRows(
  input: usize,
  output: usize,
  bytes: usize,
  words: i32,
  tail: i32,
  first: i32,
  rows: i32,
  inRows: i32,
  half: usize,
  reach: i32,
  block: usize,
  halo: usize,
  a: usize,
  b: usize,
  zero: usize,
  kinds: usize,
  shrinking: i32,
): void {
  for (let start: usize = 0; start < bytes; start += block) {
    const end = min(bytes, start + block);
    const from = start > halo ? start - halo : 0;
    const to = min(bytes, end + halo);
    const long = to - from;
    for (let y = 0; y < inRows; y++) store<u8>(kinds + <usize>y, kindOf(input + <usize>y * bytes + from, long));
    // Beside the first and last words lies bare ground, or what does not matter.
    v128.store(a - 16, i32x4.splat(0));
    v128.store(b - 16, i32x4.splat(0));
    v128.store(a + long, i32x4.splat(0));
    v128.store(b + long, i32x4.splat(0));
    // Rows within reach that are not bare, and not full.
    let inked = 0;
    let broken = 0;
    for (let y = first - reach; y < first + reach; y++) {
      if (y < 0 || y >= inRows) continue;
      const kind = load<u8>(kinds + <usize>y);
      if (kind != BLANK) inked++;
      if (kind != FULL) broken++;
    }
    for (let row = 0; row < rows; row++) {
      const y = first + row;
      if (y + reach < inRows) {
        const kind = load<u8>(kinds + <usize>(y + reach));
        if (kind != BLANK) inked++;
        if (kind != FULL) broken++;
      }
      const at = output + <usize>row * bytes + start;
      const own = load<u8>(kinds + <usize>y);
      const beside = y < reach || y + reach >= inRows;
      if (shrinking ? beside || own == BLANK : inked == 0) memory.fill(at, 0, end - start);
      else if (shrinking ? broken == 0 && from > 0 && to < bytes : own == FULL) memory.fill(at, 255, end - start);
      else {
        const acc = shrinking
          ? shrinkStretch(input, bytes, from, long, y, half, reach, a, b)
          : growStretch(input, bytes, from, long, y, inRows, half, reach, a, b, zero);
        memory.copy(at, acc + (start - from), end - start);
      }
      if (y - reach >= 0) {
        const kind = load<u8>(kinds + <usize>(y - reach));
        if (kind != BLANK) inked--;
        if (kind != FULL) broken--;
      }
    }
  }
  for (let row = 0; row < rows; row++) {
    const to = output + <usize>row * bytes;
    const lastWord = to + (<usize>(words - 1) << 2);
    store<i32>(lastWord, load<i32>(lastWord) & tail);
    for (let p = lastWord + 4; p < to + bytes; p += 4) store<i32>(p, 0);
  }
}

/** `from` without `what`, in `what`: both `bytes` long, a multiple of 16. */
export function withoutRows(from: usize, what: usize, bytes: usize): void {
  for (let i: usize = 0; i < bytes; i += 16)
    v128.store(what + i, v128.andnot(v128.load(from + i), v128.load(what + i)));
}
