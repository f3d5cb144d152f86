// Disc growth and shrinking on packed rows, 128 bits at a time: the fast twin of ../growPlain.ts, whose comment states
// the scheme. Pointers are bytes; accumulators have a guard of 16 zero bytes on either side.

/** Ink of either for growing, of both for shrinking. */
// @ts-ignore: decorator
@inline
function join(shrinking: bool, a: v128, b: v128): v128 {
  return shrinking ? v128.and(a, b) : v128.or(a, b);
}

/** The points `by` to either side of those of `w`, joined; the words before its own are in `b`, those after in `a`. */
// @ts-ignore: decorator
@inline
function beside(shrinking: bool, b: v128, w: v128, a: v128, by: i32): v128 {
  const back = 32 - by;
  return shrinking
    ? v128.and(
        v128.or(i32x4.shl(w, by), i32x4.shr_u(b, back)),
        v128.or(i32x4.shr_u(w, by), i32x4.shl(a, back)),
      )
    : v128.or(
        v128.or(i32x4.shl(w, by), i32x4.shr_u(w, by)),
        v128.or(i32x4.shr_u(b, back), i32x4.shl(a, back)),
      );
}

/** What `w` grows or shrinks to by `k` points, 1 to 4. */
// @ts-ignore: decorator
@inline
function changed(shrinking: bool, b: v128, w: v128, a: v128, k: i32): v128 {
  let sum = join(shrinking, w, beside(shrinking, b, w, a, 1));
  if (k > 1) sum = join(shrinking, sum, beside(shrinking, b, w, a, 2));
  if (k > 2) sum = join(shrinking, sum, beside(shrinking, b, w, a, 3));
  if (k > 3) sum = join(shrinking, sum, beside(shrinking, b, w, a, 4));
  return sum;
}

/** One vector of a pass, `off` bytes behind the addresses given, of which `at` lies four bytes before the row's. */
// @ts-ignore: decorator
@inline
function step(
  shrinking: bool,
  at: usize,
  to: usize,
  k: i32,
  n: i32,
  up: usize,
  down: usize,
  up2: usize,
  down2: usize,
  up3: usize,
  down3: usize,
  up4: usize,
  down4: usize,
  off: usize,
): void {
  let w = v128.load(at + off, 4);
  if (k > 0) {
    const b = v128.load(at + off);
    const a = v128.load(at + off, 8);
    w = changed(shrinking, b, w, a, k);
  }
  if (n > 0) w = join(shrinking, w, join(shrinking, v128.load(up + off), v128.load(down + off)));
  if (n > 1) w = join(shrinking, w, join(shrinking, v128.load(up2 + off), v128.load(down2 + off)));
  if (n > 2) w = join(shrinking, w, join(shrinking, v128.load(up3 + off), v128.load(down3 + off)));
  if (n > 3) w = join(shrinking, w, join(shrinking, v128.load(up4 + off), v128.load(down4 + off)));
  v128.store(to + off, w);
}

// @ts-ignore: decorator
@inline
function pass(
  shrinking: bool,
  from: usize,
  to: usize,
  bytes: usize,
  k: i32,
  n: i32,
  up: usize,
  down: usize,
  up2: usize,
  down2: usize,
  up3: usize,
  down3: usize,
  up4: usize,
  down4: usize,
): void {
  const end = to + bytes;
  let at = from - 4;
  // Four vectors a round: addresses are reckoned once for all, and what a loop costs besides is paid a quarter as often.
  for (const fours = to + (bytes & ~63); to < fours; to += 64) {
    step(shrinking, at, to, k, n, up, down, up2, down2, up3, down3, up4, down4, 0);
    step(shrinking, at, to, k, n, up, down, up2, down2, up3, down3, up4, down4, 16);
    step(shrinking, at, to, k, n, up, down, up2, down2, up3, down3, up4, down4, 32);
    step(shrinking, at, to, k, n, up, down, up2, down2, up3, down3, up4, down4, 48);
    at += 64;
    up += 64;
    down += 64;
    up2 += 64;
    down2 += 64;
    up3 += 64;
    down3 += 64;
    up4 += 64;
    down4 += 64;
  }
  for (; to < end; to += 16) {
    step(shrinking, at, to, k, n, up, down, up2, down2, up3, down3, up4, down4, 0);
    at += 16;
    up += 16;
    down += 16;
    up2 += 16;
    down2 += 16;
    up3 += 16;
    down3 += 16;
    up4 += 16;
    down4 += 16;
  }
}

/** One pass over a stretch: changed by `k` points, with the `n` rows above and below. Each pair has a loop of its own. */
// @ts-ignore: decorator
@inline
function passWith(
  shrinking: bool,
  from: usize,
  to: usize,
  bytes: usize,
  k: i32,
  n: i32,
  up: usize,
  down: usize,
  up2: usize,
  down2: usize,
  up3: usize,
  down3: usize,
  up4: usize,
  down4: usize,
): void {
  if (k == 0 && n == 0) return pass(shrinking, from, to, bytes, 0, 0, up, down, up2, down2, up3, down3, up4, down4);
  if (k == 1 && n == 0) return pass(shrinking, from, to, bytes, 1, 0, up, down, up2, down2, up3, down3, up4, down4);
  if (k == 1 && n == 1) return pass(shrinking, from, to, bytes, 1, 1, up, down, up2, down2, up3, down3, up4, down4);
  if (k == 1 && n == 2) return pass(shrinking, from, to, bytes, 1, 2, up, down, up2, down2, up3, down3, up4, down4);
  if (k == 1 && n == 3) return pass(shrinking, from, to, bytes, 1, 3, up, down, up2, down2, up3, down3, up4, down4);
  if (k == 1 && n == 4) return pass(shrinking, from, to, bytes, 1, 4, up, down, up2, down2, up3, down3, up4, down4);
  if (k == 2 && n == 0) return pass(shrinking, from, to, bytes, 2, 0, up, down, up2, down2, up3, down3, up4, down4);
  if (k == 2 && n == 1) return pass(shrinking, from, to, bytes, 2, 1, up, down, up2, down2, up3, down3, up4, down4);
  if (k == 3 && n == 0) return pass(shrinking, from, to, bytes, 3, 0, up, down, up2, down2, up3, down3, up4, down4);
  if (k == 3 && n == 1) return pass(shrinking, from, to, bytes, 3, 1, up, down, up2, down2, up3, down3, up4, down4);
  if (k == 4 && n == 0) return pass(shrinking, from, to, bytes, 4, 0, up, down, up2, down2, up3, down3, up4, down4);
  if (k == 4 && n == 1) return pass(shrinking, from, to, bytes, 4, 1, up, down, up2, down2, up3, down3, up4, down4);
  if (k == 0 && n == 1) return pass(shrinking, from, to, bytes, 0, 1, up, down, up2, down2, up3, down3, up4, down4);
  if (k == 0 && n == 2) return pass(shrinking, from, to, bytes, 0, 2, up, down, up2, down2, up3, down3, up4, down4);
  if (k == 0 && n == 3) return pass(shrinking, from, to, bytes, 0, 3, up, down, up2, down2, up3, down3, up4, down4);
  pass(shrinking, from, to, bytes, 0, 4, up, down, up2, down2, up3, down3, up4, down4);
}

function growWith(
  from: usize,
  to: usize,
  bytes: usize,
  k: i32,
  n: i32,
  up: usize,
  down: usize,
  up2: usize,
  down2: usize,
  up3: usize,
  down3: usize,
  up4: usize,
  down4: usize,
): void {
  passWith(false, from, to, bytes, k, n, up, down, up2, down2, up3, down3, up4, down4);
}

function shrinkWith(
  from: usize,
  to: usize,
  bytes: usize,
  k: i32,
  n: i32,
  up: usize,
  down: usize,
  up2: usize,
  down2: usize,
  up3: usize,
  down3: usize,
  up4: usize,
  down4: usize,
): void {
  passWith(true, from, to, bytes, k, n, up, down, up2, down2, up3, down3, up4, down4);
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

/** Adds a row of kinds to the counts, or with −1 takes it away. */
function countIn(counts: usize, kinds: usize, blocks: usize, by: i32): void {
  for (let k: usize = 0; k < blocks; k++) {
    const kind = load<u8>(kinds + k);
    const at = counts + (k << 3);
    if (kind != BLANK) store<i32>(at, load<i32>(at) + by);
    if (kind != FULL) store<i32>(at, load<i32>(at, 4) + by, 4);
  }
}

/**
 * What block `k` of a row comes to, as far as its kind, in `own`, and the counts of the rows within reach tell. `inner`: the row's
 * ends are beyond the block's halo. `beside`: the disc reaches beyond the first row or the last.
 */
// @ts-ignore: decorator
@inline
function comesTo(counts: usize, own: usize, k: usize, inner: bool, beside: bool, shrinking: i32): u8 {
  const kind = load<u8>(own + k);
  if (shrinking) {
    if (beside || kind == BLANK) return BLANK;
    return load<i32>(counts + (k << 3), 4) == 0 && inner ? FULL : MIXED;
  }
  if (load<i32>(counts + (k << 3)) == 0) return BLANK;
  return kind == FULL ? FULL : MIXED;
}

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

/**
 * One stretch of one row, `from` to `from + bytes` of row `y`: `passes` over it, see `growRows`. The last writes only what lies
 * `skip` to `skip + wanted`, to `at`. The first reads the row itself, or what stands in `acc` when `held`. Rows beyond
 * the input are `zero`.
 */
function runStretch(
  input: usize,
  pitch: usize,
  from: usize,
  bytes: usize,
  y: i32,
  inRows: i32,
  passes: usize,
  count: i32,
  acc: usize,
  other: usize,
  zero: usize,
  held: bool,
  at: usize,
  skip: usize,
  wanted: usize,
  shrinking: i32,
): void {
  const base = input + from;
  let source = base + <usize>y * pitch;
  if (held) {
    memory.copy(acc, source, bytes);
    source = acc;
  }
  for (let pass = 1; pass <= count; pass++, passes += 12) {
    const last = pass == count;
    const off: usize = last ? skip : 0;
    const to = last ? at : source == acc ? other : acc;
    const k = load<i32>(passes);
    const n = load<i32>(passes, 4);
    const v = load<i32>(passes, 8);
    const up = rowAt(base, y - v, inRows, pitch, zero) + off;
    const down = rowAt(base, y + v, inRows, pitch, zero) + off;
    const up2 = rowAt(base, y - v - 1, inRows, pitch, zero) + off;
    const down2 = rowAt(base, y + v + 1, inRows, pitch, zero) + off;
    const up3 = rowAt(base, y - v - 2, inRows, pitch, zero) + off;
    const down3 = rowAt(base, y + v + 2, inRows, pitch, zero) + off;
    const up4 = rowAt(base, y - v - 3, inRows, pitch, zero) + off;
    const down4 = rowAt(base, y + v + 3, inRows, pitch, zero) + off;
    const long = last ? wanted : bytes;
    if (shrinking) shrinkWith(source + off, to, long, k, n, up, down, up2, down2, up3, down3, up4, down4);
    else growWith(source + off, to, long, k, n, up, down, up2, down2, up3, down3, up4, down4);
    source = to;
  }
}

// @ts-ignore: decorator
@inline
function rowAt(base: usize, y: i32, rows: i32, pitch: usize, zero: usize): usize {
  return y >= 0 && y < rows ? base + <usize>y * pitch : zero;
}

/**
 * Output rows `first` to `first + rows` of an input of `inRows` rows; rows beyond the input are bare. `bytes` a row, a multiple of
 * 16, of which `words` 32-bit words are used and the last is cut to `tail`. The disc of `reach` is `count` passes over a row, each
 * three numbers: how far it grows, at most 4; how many rows above and as many below it adds thereafter; and which is the first.
 * Blocks of `block` bytes that are bare or solid are not computed; those between them are, as one stretch with `halo` bytes on
 * either side. Both are multiples of 16, and `halo` at least reach points. `a`, `b` and `zero` (zeros) hold a row and 2 halo
 * bytes with 16 more on either side; `kinds` a byte for every block of the inRows rows, `counts` 8 bytes for every block of one.
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
  passes: usize,
  count: i32,
  reach: i32,
  block: usize,
  halo: usize,
  a: usize,
  b: usize,
  zero: usize,
  kinds: usize,
  counts: usize,
  shrinking: i32,
): void {
  const blocks = (bytes + block - 1) / block;
  // Blocks before this one end, with their halo, before the row does.
  const lastInner = bytes > halo ? (bytes - halo - 1) / block : 0;
  // Of each block: rows within reach that are not bare, and not full.
  memory.fill(counts, 0, blocks << 3);
  for (let y = 0; y < inRows; y++) {
    for (let k: usize = 0; k < blocks; k++) {
      const from = k * block > halo ? k * block - halo : 0;
      const to = min(bytes, (k + 1) * block + halo);
      store<u8>(kinds + <usize>y * blocks + k, kindOf(input + <usize>y * bytes + from, to - from));
    }
    if (y >= first - reach && y < first + reach) countIn(counts, kinds + <usize>y * blocks, blocks, 1);
  }
  // Beside the first words lies bare ground, or what does not matter.
  v128.store(a - 16, i32x4.splat(0));
  v128.store(b - 16, i32x4.splat(0));
  for (let row = 0; row < rows; row++) {
    const y = first + row;
    const own = kinds + <usize>y * blocks;
    const beside = y < reach || y + reach >= inRows;
    if (y + reach < inRows) countIn(counts, kinds + <usize>(y + reach) * blocks, blocks, 1);
    const to = output + <usize>row * bytes;
    for (let k: usize = 0; k < blocks; ) {
      const kind = comesTo(counts, own, k, k > 0 && k < lastInner, beside, shrinking);
      const start = k * block;
      do k++;
      while (k < blocks && comesTo(counts, own, k, k < lastInner, beside, shrinking) == kind);
      const end = min(bytes, k * block);
      if (kind == BLANK) memory.fill(to + start, 0, end - start);
      else if (kind == FULL) memory.fill(to + start, 255, end - start);
      else {
        const from = start > halo ? start - halo : 0;
        const long = min(bytes, end + halo) - from;
        v128.store(a + long, i32x4.splat(0));
        v128.store(b + long, i32x4.splat(0));
        runStretch(
          input,
          bytes,
          from,
          long,
          y,
          inRows,
          passes,
          count,
          a,
          b,
          zero,
          // Beside the row's ends lies another row: bare ground is put there.
          from == 0 || from + long == bytes,
          to + start,
          start - from,
          end - start,
          shrinking,
        );
      }
    }
    if (y >= reach) countIn(counts, kinds + <usize>(y - reach) * blocks, blocks, -1);
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
