/**
 * One row of error diffusion after R. W. Floyd and L. Steinberg (1976), in whole sixteenths of a level: of a point's error
 * 7/16 go to the next point of the row, 3/16, 5/16 and the rest to the row below, behind, under and ahead of it. What
 * would fall beside the row goes straight down, so that no tone is lost at the borders.
 *
 * `errors` holds the errors of this row's points from index 1 on, `next` (overwritten) those of the row below; both have
 * width + 2 entries. Bits are set in the words of `out` from word `outAt` on, which must be 0.
 */
export function diffuseRowPlain(
  values: Uint8Array,
  at: number,
  width: number,
  errors: Int32Array,
  next: Int32Array,
  out: Int32Array,
  outAt: number,
  backwards: boolean,
): void {
  next.fill(0);
  const dir = backwards ? -1 : 1;
  let carry = 0;
  for (let n = 0, x = backwards ? width - 1 : 0; n < width; n++, x += dir) {
    const v = values[at + x]! * 16 + errors[x + 1]! + carry;
    const ink = v >= 2040;
    const e = ink ? v - 4080 : v;
    carry = (7 * e) >> 4;
    const back = (3 * e) >> 4;
    const down = (5 * e) >> 4;
    next[x + 1 - dir] = next[x + 1 - dir]! + back;
    next[x + 1] = next[x + 1]! + down;
    next[x + 1 + dir] = next[x + 1 + dir]! + e - carry - back - down;
    if (ink) out[outAt + (x >>> 5)] = out[outAt + (x >>> 5)]! | (1 << (x & 31));
  }
  const end = backwards ? 1 : width;
  next[1] = next[1]! + next[0]!;
  next[width] = next[width]! + next[width + 1]!;
  next[end] = next[end]! + carry;
}
