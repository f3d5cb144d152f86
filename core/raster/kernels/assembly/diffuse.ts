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
  let bits: u32 = 0;
  let from = values + <usize>x;
  let error = errors + (<usize>x << 2);
  let to = next + (<usize>x << 2);
  for (let n = width; n > 0; n--) {
    const v = (<i32>load<u8>(from) << 4) + load<i32>(error) + carry;
    const ink = v >= 2040;
    const e = ink ? v - 4080 : v;
    carry = (7 * e) >> 4;
    const back = (3 * e) >> 4;
    const down = (5 * e) >> 4;
    store<i32>(to - bytes, behind + back);
    behind = here + down;
    here = e - carry - back - down;
    bits |= <u32>ink << (x & 31);
    x += dir;
    if ((x & 31) == (backwards ? 31 : 0) || n == 1) {
      store<u32>(out + (<usize>((x - dir) >> 5) << 2), bits);
      bits = 0;
    }
    from += dir;
    error += bytes;
    to += bytes;
  }
  // What would fall beside the row goes straight down, so that no tone is lost at the borders.
  store<i32>(to - bytes, behind + here + carry);
  const guard = backwards ? next + (<usize>width << 2) : next - 4;
  const first = backwards ? next + (<usize>(width - 1) << 2) : next;
  store<i32>(first, load<i32>(first) + load<i32>(guard));
}
