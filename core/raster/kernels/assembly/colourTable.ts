// Shares of inks from a table of colours: the fast twin of ../colourTablePlain.ts.

const UNIT: i32 = 1 << 15;
const HALF: i32 = UNIT >> 1;

// @ts-expect-error: decorator
@inline
function runningSums(v: v128): v128 {
  const zero = i32x4.splat(0);
  const pairs = i32x4.add(v, v128.shuffle<i32>(zero, v, 0, 4, 5, 6));
  return i32x4.add(pairs, v128.shuffle<i32>(zero, pairs, 0, 1, 4, 5));
}

/**
 * Shares of `count` points (red, green, blue, alpha). `axes`: for red, green and blue 256 pairs of i32, the bytes that the
 * level's lower node adds to the place of its colour, and the 256ths to the next; the next node is `stepR`, `stepG` or `stepB` bytes
 * on. A node's shares begin at `shares` plus its place: as many u16 as `groups` eights hold, 0 beyond the planes. `ends`: as many
 * i32, 255 from the last plane on and 0 before it. Plane p of the answer begins at `out` + p × `outPitch`.
 */
export function tableShares(
  points: usize,
  count: i32,
  axes: usize,
  stepR: i32,
  stepG: i32,
  stepB: i32,
  shares: usize,
  planes: i32,
  groups: i32,
  ends: usize,
  out: usize,
  outPitch: i32,
): void {
  const all = stepR + stepG + stepB;
  const pitch = <usize>outPitch;
  for (let x = 0; x < count; x++, points += 4, out++) {
    const alpha = <i32>load<u8>(points, 3);
    if (alpha == 0) {
      store<u8>(out, 255);
      let to = out + pitch;
      for (let p = 1; p < planes; p++, to += pitch) store<u8>(to, 0);
      continue;
    }
    const red = axes + (<usize>load<u8>(points) << 3);
    const green = axes + (<usize>load<u8>(points, 1) << 3) + 2048;
    const blue = axes + (<usize>load<u8>(points, 2) << 3) + 4096;
    const fr = load<i32>(red, 4);
    const fg = load<i32>(green, 4);
    const fb = load<i32>(blue, 4);
    // The axis with the largest fraction comes first, the one with the least last; of equals red before green before blue.
    const high = max(fr, max(fg, fb));
    const low = min(fr, min(fg, fb));
    const middle = fr + fg + fb - high - low;
    const most = select(stepR, select(stepG, stepB, fg == high), fr == high);
    const least = select(stepB, select(stepG, stepR, fg == low), fb == low);
    const first = shares + <usize>(load<i32>(red) + load<i32>(green) + load<i32>(blue));
    let n0 = first;
    let n1 = first + <usize>most;
    let n2 = first + <usize>(all - least);
    let n3 = first + <usize>all;
    const w0 = 256 - high;
    const w1 = high - middle;
    const w2 = middle - low;
    let to = out;
    if (alpha != 255) {
      let sum = (255 - alpha) * UNIT + HALF;
      let given = 0;
      for (let p = 0; p < planes; p++) {
        const share =
          w0 * <i32>load<u16>(n0) + w1 * <i32>load<u16>(n1) + w2 * <i32>load<u16>(n2) + low * <i32>load<u16>(n3);
        sum += <i32>(<u32>(share * alpha) / 255);
        const upTo = p == planes - 1 ? 255 : min(sum >> 15, 255);
        store<u8>(to, upTo - given);
        given = upTo;
        to += pitch;
        n0 += 2;
        n1 += 2;
        n2 += 2;
        n3 += 2;
      }
      continue;
    }
    const w01 = i32x4.splat(w0 | (w1 << 16));
    const w23 = i32x4.splat(w2 | (low << 16));
    let sum = i32x4.splat(HALF);
    let given = i16x8.splat(0);
    for (let k = 0, p = 0; k < groups; k++, p += 8) {
      const a = v128.load(n0);
      const b = v128.load(n1);
      const c = v128.load(n2);
      const d = v128.load(n3);
      const lower = i32x4.add(
        i32x4.dot_i16x8_s(v128.shuffle<i16>(a, b, 0, 8, 1, 9, 2, 10, 3, 11), w01),
        i32x4.dot_i16x8_s(v128.shuffle<i16>(c, d, 0, 8, 1, 9, 2, 10, 3, 11), w23),
      );
      const upper = i32x4.add(
        i32x4.dot_i16x8_s(v128.shuffle<i16>(a, b, 4, 12, 5, 13, 6, 14, 7, 15), w01),
        i32x4.dot_i16x8_s(v128.shuffle<i16>(c, d, 4, 12, 5, 13, 6, 14, 7, 15), w23),
      );
      const low4 = i32x4.add(runningSums(lower), sum);
      const high4 = i32x4.add(runningSums(upper), v128.shuffle<i32>(low4, low4, 3, 3, 3, 3));
      sum = v128.shuffle<i32>(high4, high4, 3, 3, 3, 3);
      const at = ends + (<usize>k << 5);
      const whole = i32x4.splat(255);
      const upTo = i16x8.narrow_i32x4_s(
        i32x4.max_s(i32x4.min_s(i32x4.shr_s(low4, 15), whole), v128.load(at)),
        i32x4.max_s(i32x4.min_s(i32x4.shr_s(high4, 15), whole), v128.load(at, 16)),
      );
      const before = v128.shuffle<i16>(given, upTo, 7, 8, 9, 10, 11, 12, 13, 14);
      given = upTo;
      const bytes = i8x16.narrow_i16x8_u(i16x8.sub(upTo, before), upTo);
      const left = planes - p;
      v128.store_lane<u8>(to, bytes, 0);
      to += pitch;
      if (left > 1) {
        v128.store_lane<u8>(to, bytes, 1);
        to += pitch;
      }
      if (left > 2) {
        v128.store_lane<u8>(to, bytes, 2);
        to += pitch;
      }
      if (left > 3) {
        v128.store_lane<u8>(to, bytes, 3);
        to += pitch;
      }
      if (left > 4) {
        v128.store_lane<u8>(to, bytes, 4);
        to += pitch;
      }
      if (left > 5) {
        v128.store_lane<u8>(to, bytes, 5);
        to += pitch;
      }
      if (left > 6) {
        v128.store_lane<u8>(to, bytes, 6);
        to += pitch;
      }
      if (left > 7) {
        v128.store_lane<u8>(to, bytes, 7);
        to += pitch;
      }
      n0 += 16;
      n1 += 16;
      n2 += 16;
      n3 += 16;
    }
  }
}
