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

function shrinkWith(from: usize, to: usize, bytes: usize, k: i32): void {
  if (k == 1) for (let i: usize = 0; i < bytes; i += 16) v128.store(to + i, narrower(from + i, 1));
  else if (k == 2) for (let i: usize = 0; i < bytes; i += 16) v128.store(to + i, narrower(from + i, 2));
  else for (let i: usize = 0; i < bytes; i += 16) v128.store(to + i, narrower(from + i, 3));
}

/**
 * Output rows `first` to `first + rows` of an input of `inRows` rows; rows beyond the input are bare. `bytes` a row, a multiple of
 * 16, of which `words` 32-bit words are used and the last is cut to `tail`. `half` holds reach + 1 half-widths. `a` and `b`
 * are accumulators with guards, `zero` a row of zeros.
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
  a: usize,
  b: usize,
  zero: usize,
  shrinking: i32,
): void {
  for (let row = 0; row < rows; row++) {
    const y = first + row;
    const to = output + <usize>row * bytes;
    let acc = a;
    let other = b;
    if (shrinking && (y < reach || y + reach >= inRows)) {
      memory.fill(to, 0, bytes);
      continue;
    }
    memory.copy(acc, input + <usize>y * bytes, bytes);
    for (let v = 1; v <= reach + 1; v++) {
      const h = load<i32>(half + ((<usize>v - 1) << 2));
      let step = v <= reach ? h - load<i32>(half + (<usize>v << 2)) : h;
      const up = v <= reach && y - v >= 0 ? input + <usize>(y - v) * bytes : zero;
      const down = v <= reach && y + v < inRows ? input + <usize>(y + v) * bytes : zero;
      if (shrinking) {
        while (step > 0) {
          const k = min(step, 3);
          shrinkWith(acc, other, bytes, k);
          step -= k;
          const swap = acc;
          acc = other;
          other = swap;
        }
        if (v <= reach)
          for (let i: usize = 0; i < bytes; i += 16)
            v128.store(acc + i, v128.and(v128.load(acc + i), v128.and(v128.load(up + i), v128.load(down + i))));
      } else if (step == 0 && v < reach && load<i32>(half + ((<usize>v + 1) << 2)) == h) {
        // Two rows above and two below that need no growth between them, in one go.
        v++;
        const up2 = y - v >= 0 ? input + <usize>(y - v) * bytes : zero;
        const down2 = y + v < inRows ? input + <usize>(y + v) * bytes : zero;
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
    memory.copy(to, acc, bytes);
    const lastWord = to + (<usize>(words - 1) << 2);
    store<i32>(lastWord, load<i32>(lastWord) & tail);
    for (let p = lastWord + 4; p < to + bytes; p += 4) store<i32>(p, 0);
  }
}
