// Warp and argmax: the fast twin of ../warpPlain.ts, equal to it bit for bit. Works on one tile whose source region lies
// in linear memory. A texel is 8 bytes a group of eight planes; `winners` is a byte a texel; `reach` counts, from a texel
// to the right, the cells (2 × 2 texels) in a row that agree on one winner, up to 255.

// @ts-ignore: decorator
@inline
const SUB: i32 = 2048;

function zip(
  a0: v128, a1: v128, a2: v128, a3: v128, a4: v128, a5: v128, a6: v128, a7: v128,
  to: usize, pitch: usize,
): void {
  for (let half = 0; half < 2; half++) {
    let t0: v128, t1: v128, t2: v128, t3: v128;
    if (half == 0) {
      t0 = v128.shuffle<i8>(a0, a1, 0, 16, 1, 17, 2, 18, 3, 19, 4, 20, 5, 21, 6, 22, 7, 23);
      t1 = v128.shuffle<i8>(a2, a3, 0, 16, 1, 17, 2, 18, 3, 19, 4, 20, 5, 21, 6, 22, 7, 23);
      t2 = v128.shuffle<i8>(a4, a5, 0, 16, 1, 17, 2, 18, 3, 19, 4, 20, 5, 21, 6, 22, 7, 23);
      t3 = v128.shuffle<i8>(a6, a7, 0, 16, 1, 17, 2, 18, 3, 19, 4, 20, 5, 21, 6, 22, 7, 23);
    } else {
      t0 = v128.shuffle<i8>(a0, a1, 8, 24, 9, 25, 10, 26, 11, 27, 12, 28, 13, 29, 14, 30, 15, 31);
      t1 = v128.shuffle<i8>(a2, a3, 8, 24, 9, 25, 10, 26, 11, 27, 12, 28, 13, 29, 14, 30, 15, 31);
      t2 = v128.shuffle<i8>(a4, a5, 8, 24, 9, 25, 10, 26, 11, 27, 12, 28, 13, 29, 14, 30, 15, 31);
      t3 = v128.shuffle<i8>(a6, a7, 8, 24, 9, 25, 10, 26, 11, 27, 12, 28, 13, 29, 14, 30, 15, 31);
    }
    const u0 = v128.shuffle<i16>(t0, t1, 0, 8, 1, 9, 2, 10, 3, 11);
    const u1 = v128.shuffle<i16>(t0, t1, 4, 12, 5, 13, 6, 14, 7, 15);
    const w0 = v128.shuffle<i16>(t2, t3, 0, 8, 1, 9, 2, 10, 3, 11);
    const w1 = v128.shuffle<i16>(t2, t3, 4, 12, 5, 13, 6, 14, 7, 15);
    const o0 = v128.shuffle<i32>(u0, w0, 0, 4, 1, 5);
    const o1 = v128.shuffle<i32>(u0, w0, 2, 6, 3, 7);
    const o2 = v128.shuffle<i32>(u1, w1, 0, 4, 1, 5);
    const o3 = v128.shuffle<i32>(u1, w1, 2, 6, 3, 7);
    v128.store_lane<i64>(to, o0, 0);
    v128.store_lane<i64>(to + pitch, o0, 1);
    v128.store_lane<i64>(to + 2 * pitch, o1, 0);
    v128.store_lane<i64>(to + 3 * pitch, o1, 1);
    v128.store_lane<i64>(to + 4 * pitch, o2, 0);
    v128.store_lane<i64>(to + 5 * pitch, o2, 1);
    v128.store_lane<i64>(to + 6 * pitch, o3, 0);
    v128.store_lane<i64>(to + 7 * pitch, o3, 1);
    to += 8 * pitch;
  }
}

// @ts-ignore: decorator
@inline
function planeAt(planar: usize, k: i32, planes: i32, size: usize, at: usize): v128 {
  return k < planes ? v128.load(planar + <usize>k * size + at) : i32x4.splat(0);
}

/** The winner that four texels one below the other share, from one above `p` on; 256 where they do not. */
// @ts-ignore: decorator
@inline
function shared(p: usize, pitch: usize): i32 {
  const winner = <i32>load<u8>(p);
  const same =
    winner == <i32>load<u8>(p - pitch) &&
    winner == <i32>load<u8>(p + pitch) &&
    winner == <i32>load<u8>(p + 2 * pitch);
  return same ? winner : 256;
}

/** `reach` where a cell agrees only with all sixteen texels around it. */
function reachOfSixteen(winners: usize, pitch: i32, rows: i32, reach: usize): void {
  memory.fill(reach, 0, <usize>pitch * <usize>rows);
  for (let y = 1; y < rows - 2; y++) {
    const row = winners + <usize>y * <usize>pitch;
    const to = reach + <usize>y * <usize>pitch;
    let run: u32 = 0;
    let c1 = shared(row + <usize>(pitch - 3), <usize>pitch);
    let c2 = shared(row + <usize>(pitch - 2), <usize>pitch);
    let c3 = shared(row + <usize>(pitch - 1), <usize>pitch);
    for (let x = pitch - 3; x > 0; x--) {
      const c0 = shared(row + <usize>(x - 1), <usize>pitch);
      const same = c0 == c1 && c1 == c2 && c2 == c3 && c0 != 256;
      run = same ? min(run + 1, 255) : 0;
      store<u8>(to + <usize>x, <u8>run);
      c3 = c2;
      c2 = c1;
      c1 = c0;
    }
  }
}

/**
 * From `planes` planar regions of `rows` × `pitch` bytes (pitch a multiple of 16): texels, winners and reach. `cubic`: reach for
 * cells whose sixteen texels agree, else for those whose four do.
 */
export function prepareSource(
  planar: usize,
  planes: i32,
  pitch: i32,
  rows: i32,
  texels: usize,
  winners: usize,
  reach: usize,
  cubic: i32,
): void {
  const size = <usize>pitch * <usize>rows;
  const groups = (planes + 7) >> 3;
  const texel = <usize>groups << 3;
  for (let at: usize = 0; at < size; at += 16) {
    let best = v128.load(planar + at);
    let winner = i32x4.splat(0);
    for (let k = 1; k < planes; k++) {
      const value = v128.load(planar + <usize>k * size + at);
      winner = v128.bitselect(i8x16.splat(<i8>k), winner, i8x16.gt_u(value, best));
      best = i8x16.max_u(best, value);
    }
    v128.store(winners + at, winner);
    for (let g = 0; g < groups; g++) {
      const k = g << 3;
      zip(
        planeAt(planar, k, planes, size, at),
        planeAt(planar, k + 1, planes, size, at),
        planeAt(planar, k + 2, planes, size, at),
        planeAt(planar, k + 3, planes, size, at),
        planeAt(planar, k + 4, planes, size, at),
        planeAt(planar, k + 5, planes, size, at),
        planeAt(planar, k + 6, planes, size, at),
        planeAt(planar, k + 7, planes, size, at),
        texels + at * texel + (<usize>g << 3),
        texel,
      );
    }
  }
  if (cubic) reachOfSixteen(winners, pitch, rows, reach);
  else reachOf(winners, pitch, rows, reach);
}

/** Counts, from each texel to the right, the cells that agree on one winner. */
export function reachOf(winners: usize, pitch: i32, rows: i32, reach: usize): void {
  const size = <usize>pitch * <usize>rows;
  memory.fill(reach + size - <usize>pitch, 0, <usize>pitch);
  for (let y = 0; y < rows - 1; y++) {
    const row = winners + <usize>y * <usize>pitch;
    const to = reach + <usize>y * <usize>pitch;
    let run: u32 = 0;
    store<u8>(to + <usize>pitch - 1, 0);
    let right = <u32>load<u8>(row + <usize>pitch - 1) | (<u32>load<u8>(row + 2 * <usize>pitch - 1) << 8);
    for (let x = pitch - 2; x >= 0; x--) {
      const here = <u32>load<u8>(row + <usize>x) | (<u32>load<u8>(row + <usize>(x + pitch)) << 8);
      // Both columns the same pair, and the pair of one winner.
      const same = here == right && (here & 255) == here >> 8;
      run = same ? min(run + 1, 255) : 0;
      store<u8>(to + <usize>x, <u8>run);
      right = here;
    }
  }
}

// @ts-ignore: decorator
@inline
function largest(v: v128): i32 {
  const m = i32x4.max_s(v, v128.shuffle<i32>(v, v, 2, 3, 0, 1));
  return i32x4.extract_lane(i32x4.max_s(m, v128.shuffle<i32>(m, m, 1, 0, 3, 2)), 0);
}

/** The plane with the largest bilinear sample at texel p with fractions fx and fy. */
// @ts-ignore: decorator
@inline
function sample(p: usize, texel: usize, below: usize, groups: i32, fx: i32, fy: i32): i32 {
  const across = i32x4.splat((fx << 16) | (SUB - fx));
  const upper = i32x4.splat(SUB - fy);
  const lower = i32x4.splat(fy);
  let best = -1;
  let winner = 0;
  for (let g = 0; g < groups; g++) {
    const a = v128.load_ext<u8>(p);
    const b = v128.load_ext<u8>(p + texel);
    const c = v128.load_ext<u8>(p + below);
    const d = v128.load_ext<u8>(p + below + texel);
    const lo = i32x4.add(
      i32x4.mul(i32x4.dot_i16x8_s(v128.shuffle<i16>(a, b, 0, 8, 1, 9, 2, 10, 3, 11), across), upper),
      i32x4.mul(i32x4.dot_i16x8_s(v128.shuffle<i16>(c, d, 0, 8, 1, 9, 2, 10, 3, 11), across), lower),
    );
    const hi = i32x4.add(
      i32x4.mul(i32x4.dot_i16x8_s(v128.shuffle<i16>(a, b, 4, 12, 5, 13, 6, 14, 7, 15), across), upper),
      i32x4.mul(i32x4.dot_i16x8_s(v128.shuffle<i16>(c, d, 4, 12, 5, 13, 6, 14, 7, 15), across), lower),
    );
    const top = largest(i32x4.max_s(lo, hi));
    if (top > best) {
      best = top;
      const same = i32x4.splat(top);
      const lanes = i32x4.bitmask(i32x4.eq(lo, same)) | (i32x4.bitmask(i32x4.eq(hi, same)) << 4);
      winner = (g << 3) + ctz(lanes);
    }
    p += 8;
  }
  return winner;
}

/** Four texels of a row, weighed by two pairs of weights, for planes 0 to 3 (`high` 0) or 4 to 7 of a group. */
// @ts-ignore: decorator
@inline
function across4(a: v128, b: v128, c: v128, d: v128, w01: v128, w23: v128, high: bool): v128 {
  return high
    ? i32x4.add(
        i32x4.dot_i16x8_s(v128.shuffle<i16>(a, b, 4, 12, 5, 13, 6, 14, 7, 15), w01),
        i32x4.dot_i16x8_s(v128.shuffle<i16>(c, d, 4, 12, 5, 13, 6, 14, 7, 15), w23),
      )
    : i32x4.add(
        i32x4.dot_i16x8_s(v128.shuffle<i16>(a, b, 0, 8, 1, 9, 2, 10, 3, 11), w01),
        i32x4.dot_i16x8_s(v128.shuffle<i16>(c, d, 0, 8, 1, 9, 2, 10, 3, 11), w23),
      );
}

/** The plane with the largest bicubic sample, samples below 0 counting as 0. `weights`: four i16 for each fraction. */
function sampleCubic(p: usize, texel: usize, below: usize, groups: i32, fx: i32, fy: i32, weights: usize): i32 {
  const wx = weights + (<usize>fx << 3);
  const wy = weights + (<usize>fy << 3);
  const w01 = v128.load32_splat(wx);
  const w23 = v128.load32_splat(wx + 4);
  const none = i32x4.splat(0);
  let best = -1;
  let winner = 0;
  let q = p - below - texel;
  for (let g = 0; g < groups; g++) {
    let lo = none;
    let hi = none;
    for (let j: usize = 0; j < 4; j++) {
      const at = q + j * below;
      const a = v128.load_ext<u8>(at);
      const b = v128.load_ext<u8>(at + texel);
      const c = v128.load_ext<u8>(at + 2 * texel);
      const d = v128.load_ext<u8>(at + 3 * texel);
      const weight = i32x4.splat(<i32>load<i16>(wy + (j << 1)));
      lo = i32x4.add(lo, i32x4.mul(across4(a, b, c, d, w01, w23, false), weight));
      hi = i32x4.add(hi, i32x4.mul(across4(a, b, c, d, w01, w23, true), weight));
    }
    lo = i32x4.max_s(lo, none);
    hi = i32x4.max_s(hi, none);
    const top = largest(i32x4.max_s(lo, hi));
    if (top > best) {
      best = top;
      const same = i32x4.splat(top);
      const lanes = i32x4.bitmask(i32x4.eq(lo, same)) | (i32x4.bitmask(i32x4.eq(hi, same)) << 4);
      winner = (g << 3) + ctz(lanes);
    }
    q += 8;
  }
  return winner;
}

/** Two places at once: floor((start + slope × u − 0.5) × 2048), x in lane 0 and y in lane 1. */
// @ts-ignore: decorator
@inline
function place(start: v128, slope: v128, u: f64): v128 {
  const at = f64x2.sub(f64x2.add(start, f64x2.mul(slope, f64x2.splat(u))), f64x2.splat(0.5));
  return i32x4.trunc_sat_f64x2_s_zero(f64x2.floor(f64x2.mul(at, f64x2.splat(2048.0))));
}

/**
 * The winner of all points of a stretch whose first and last places are `p0` and `p1`: 0 too when all lie outside, −1 when
 * single points must be looked at. Places move one way along a stretch: what holds at both ends holds between.
 */
// @ts-ignore: decorator
@inline
function common(
  p0: v128,
  p1: v128,
  maxX: i32,
  maxY: i32,
  regionX: i32,
  regionY: i32,
  pitch: i32,
  winners: usize,
  reach: usize,
): i32 {
  const lo = i32x4.min_s(p0, p1);
  const hi = i32x4.max_s(p0, p1);
  const loX = i32x4.extract_lane(lo, 0);
  const loY = i32x4.extract_lane(lo, 1);
  const hiX = i32x4.extract_lane(hi, 0);
  const hiY = i32x4.extract_lane(hi, 1);
  if (hiX <= -SUB || loX >= maxX || hiY <= -SUB || loY >= maxY) return 0;
  if (loX <= -SUB || hiX >= maxX || loY <= -SUB || hiY >= maxY) return -1;
  const cells = (hiX >> 11) - (loX >> 11) + 1;
  const last = (hiY >> 11) - regionY;
  let at = ((loY >> 11) - regionY) * pitch + (loX >> 11) - regionX;
  const first = at;
  for (let y = (loY >> 11) - regionY; y <= last; y++) {
    if (<i32>load<u8>(reach + <usize>at) < cells) return -1;
    at += pitch;
  }
  return <i32>load<u8>(winners + <usize>first);
}

// @ts-ignore: decorator
@inline
function fill(word: usize, outSize: usize, winner: i32, from: i32, to: i32): void {
  if (winner == 0) return;
  const at = word + <usize>(winner - 1) * outSize;
  const bits = (<u32>-1 << (from & 31)) & (<u32>-1 >> (31 - ((to - 1) & 31)));
  store<u32>(at, load<u32>(at) | bits);
}

/** The place on the line from node `n` to the one `pitch` bytes on, at the share `v` of it. */
// @ts-ignore: decorator
@inline
function borderAt(n: usize, pitch: usize, v: v128): v128 {
  const upper = f64x2.promote_low_f32x4(v128.load64_zero(n));
  const lower = f64x2.promote_low_f32x4(v128.load64_zero(n + pitch));
  return f64x2.add(upper, f64x2.mul(f64x2.sub(lower, upper), v));
}

/**
 * Inks one tile. `nodes` are the grid's places, f32 pairs, rows of `cols`; the tile begins at (tileX, tileY) of the grid. The
 * region's texel (0, 0) is source point (regionX, regionY). Bits of plane k go to out + (k − 1) × outSize, rows of
 * `outPitch` bytes, from bit 0. `weights` of bicubic samples, see `sampleCubic`; 0 for bilinear ones.
 */
export function warpTile(
  nodes: usize,
  cols: i32,
  step: i32,
  tileX: i32,
  tileY: i32,
  width: i32,
  height: i32,
  planes: i32,
  srcWidth: i32,
  srcHeight: i32,
  regionX: i32,
  regionY: i32,
  pitch: i32,
  texels: usize,
  winners: usize,
  reach: usize,
  out: usize,
  outSize: usize,
  outPitch: usize,
  weights: usize,
): void {
  const groups = (planes + 7) >> 3;
  const texel = <usize>groups << 3;
  const below = <usize>pitch * texel;
  const maxX = srcWidth * SUB;
  const maxY = srcHeight * SUB;
  const stepF = f64x2.splat(<f64>step);
  // A power of two divides exactly by its inverse, in a fifth of the time.
  const powered = (step & (step - 1)) == 0;
  const oneStep = f64x2.splat(1.0 / <f64>step);
  const nodePitch = <usize>cols << 3;
  for (let row = 0; row < height; row++) {
    const gridY = tileY + row;
    const r = gridY / step;
    const v = f64x2.splat((<f64>gridY + 0.5 - <f64>(r * step)) / <f64>step);
    const outRow = out + <usize>row * outPitch;
    let x = 0;
    let c = tileX / step;
    let n = nodes + (<usize>(r * cols + c) << 3);
    // Where the cell's left and right borders meet the row; the right one is the next cell's left.
    let start = borderAt(n, nodePitch, v);
    while (x < width) {
      const right = borderAt(n + 8, nodePitch, v);
      const across = f64x2.sub(right, start);
      const slope = powered ? f64x2.mul(across, oneStep) : f64x2.div(across, stepF);
      const cellStart = c * step - tileX;
      const cellEnd = min(width, cellStart + step);
      while (x < cellEnd) {
        const end = min(cellEnd, (x & ~31) + 32);
        const word = outRow + (<usize>(x >> 5) << 2);
        const winner = common(
          place(start, slope, <f64>(x - cellStart) + 0.5),
          place(start, slope, <f64>(end - 1 - cellStart) + 0.5),
          maxX, maxY, regionX, regionY, pitch, winners, reach,
        );
        if (winner >= 0) {
          fill(word, outSize, winner, x, end);
          x = end;
          continue;
        }
        while (x < end) {
          const stop = min(end, (x & ~7) + 8);
          const winner = common(
            place(start, slope, <f64>(x - cellStart) + 0.5),
            place(start, slope, <f64>(stop - 1 - cellStart) + 0.5),
            maxX, maxY, regionX, regionY, pitch, winners, reach,
          );
          if (winner >= 0) {
            fill(word, outSize, winner, x, stop);
            x = stop;
            continue;
          }
          for (; x < stop; x++) {
            const q = place(start, slope, <f64>(x - cellStart) + 0.5);
            const qx = i32x4.extract_lane(q, 0);
            const qy = i32x4.extract_lane(q, 1);
            if (qx <= -SUB || qx >= maxX || qy <= -SUB || qy >= maxY) continue;
            const at = ((qy >> 11) - regionY) * pitch + (qx >> 11) - regionX;
            const winner =
              load<u8>(reach + <usize>at) != 0
                ? <i32>load<u8>(winners + <usize>at)
                : weights
                  ? sampleCubic(
                      texels + <usize>at * texel,
                      texel,
                      below,
                      groups,
                      qx & (SUB - 1),
                      qy & (SUB - 1),
                      weights,
                    )
                  : sample(texels + <usize>at * texel, texel, below, groups, qx & (SUB - 1), qy & (SUB - 1));
            if (winner != 0) {
              const to = word + <usize>(winner - 1) * outSize;
              store<u32>(to, load<u32>(to) | (<u32>1 << (x & 31)));
            }
          }
        }
      }
      start = right;
      n += 8;
      c++;
    }
  }
}

/**
 * Of each of `rows` rows of `pitch` bytes the first word with ink and the one after its last, two i32 a row; 0 and 0 where there is
 * none.
 */
export function inkedSpans(from: usize, pitch: usize, rows: i32, spans: usize): void {
  for (let y = 0; y < rows; y++) {
    const row = from + <usize>y * pitch;
    const end = row + pitch;
    let a = row;
    while (a + 16 <= end && !v128.any_true(v128.load(a))) a += 16;
    while (a < end && load<u32>(a) == 0) a += 4;
    let b = end;
    if (a == end) b = a = row;
    while (b > a && load<u32>(b - 4) == 0) b -= 4;
    store<i32>(spans, <i32>((a - row) >> 2));
    store<i32>(spans, <i32>((b - row) >> 2), 4);
    spans += 8;
  }
}
