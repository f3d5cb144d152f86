// One row of error diffusion: the fast twin of ../diffusePlain.ts.

/**
 * Row of `width` bytes at `values`; `errors` and `next` point at the error of point 0 in rows of i32 with a guard on either
 * side; `next` is overwritten. `backwards` 1 goes from right to left. Bits are set in `out`, zeroed here, of `outPitch` bytes.
 */
export function diffuseRow(
  values: usize,
  width: i32,
  errors: usize,
  next: usize,
  out: usize,
  outPitch: usize,
  backwards: i32,
): void {
  memory.fill(out, 0, outPitch);
  const dir = backwards ? -1 : 1;
  const bytes: isize = <isize>dir << 2;
  let x = backwards ? width - 1 : 0;
  let carry = 0;
  // Errors for the points below: behind, here and ahead, complete once the point two steps on has been done.
  let behind = 0;
  let here = 0;
  let from = values + <usize>x;
  let error = errors + (<usize>x << 2);
  let to = next + (<usize>x << 2);
  for (let left = width; left > 0; ) {
    const word = out + (<usize>(x >> 5) << 2);
    let count = min(left, backwards ? (x & 31) + 1 : 32 - (x & 31));
    left -= count;
    let bits: u32 = 0;
    for (; count > 0; count--) {
      const v = (<i32>load<u8>(from) << 4) + load<i32>(error) + carry;
      // All ones where the point gets ink. No branches, and 7v beside the comparison: this chain bounds the speed.
      const ink = (2039 - v) >> 31;
      carry = ((v << 3) - v - (ink & 28560)) >> 4;
      const e = v - (ink & 4080);
      const back = (3 * e) >> 4;
      const down = (5 * e) >> 4;
      store<i32>(to - bytes, behind + back);
      behind = here + down;
      here = e - carry - back - down;
      bits |= (ink & 1) << (x & 31);
      x += dir;
      from += dir;
      error += bytes;
      to += bytes;
    }
    store<u32>(word, bits);
  }
  // What would fall beside the row goes straight down, so that no tone is lost at the borders.
  store<i32>(to - bytes, behind + here + carry);
  const guard = backwards ? next + (<usize>width << 2) : next - 4;
  const first = backwards ? next + (<usize>(width - 1) << 2) : next;
  store<i32>(first, load<i32>(first) + load<i32>(guard));
}
