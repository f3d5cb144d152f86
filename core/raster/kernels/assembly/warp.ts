// Warp and argmax: the fast twin of ../warpPlain.ts, equal to it bit for bit. Works on one tile whose source region lies
// in linear memory. A texel is 8 bytes a group of eight planes; `winners` is a byte a texel; `alike` has a bit for each cell (2 × 2
// texels, named by its upper left one) whose texels agree on one winner, rows of an eighth of `pitch` bytes.

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

/** `alike` where a cell agrees only with all sixteen texels around it, from `fours`, which says so of cells' own four. */
function sixteens(fours: usize, pitch: i32, rows: i32, alike: usize): void {
  const bytes = <usize>pitch >> 3;
  memory.fill(alike, 0, bytes * <usize>rows);
  for (let y = 1; y < rows - 2; y++) {
    const row = fours + <usize>y * bytes;
    const to = alike + <usize>y * bytes;
    let before: u32 = 0;
    for (let x: usize = 0; x < bytes; x += 2) {
      const here = threeRows(row + x, bytes);
      const after: u32 = x + 2 < bytes ? threeRows(row + x + 2, bytes) : 0;
      store<u16>(to + x, <u16>(here & ((here << 1) | (before >>> 15)) & ((here >>> 1) | (after << 15))));
      before = here;
    }
  }
}

// @ts-ignore: decorator
@inline
function threeRows(at: usize, bytes: usize): u32 {
  return <u32>load<u16>(at - bytes) & <u32>load<u16>(at) & <u32>load<u16>(at + bytes);
}

/**
 * From `planes` planar regions of `rows` × `pitch` bytes (pitch a multiple of 16): texels, winners and which cells are alike; with room for
 * as many bits at `fours`: those whose sixteen texels agree, else (0) those whose four do.
 */
export function prepareSource(
  planar: usize,
  planes: i32,
  pitch: i32,
  rows: i32,
  texels: usize,
  winners: usize,
  alike: usize,
  fours: usize,
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
  if (fours) {
    alikeCells(winners, pitch, rows, fours);
    sixteens(fours, pitch, rows, alike);
  } else alikeCells(winners, pitch, rows, alike);
}

/** Which cells' four texels agree on one winner; those of the last row and column have no four. */
export function alikeCells(winners: usize, pitch: i32, rows: i32, alike: usize): void {
  const bytes = <usize>pitch >> 3;
  memory.fill(alike + <usize>(rows - 1) * bytes, 0, bytes);
  for (let y = 0; y < rows - 1; y++) {
    const row = winners + <usize>y * <usize>pitch;
    const to = alike + <usize>y * bytes;
    for (let x: usize = 0; x < <usize>pitch; x += 16) {
      const p = row + x;
      const q = p + <usize>pitch;
      const here = v128.load(p);
      const same = v128.and(
        v128.and(i8x16.eq(here, v128.load(p, 1)), i8x16.eq(here, v128.load(q))),
        i8x16.eq(here, v128.load(q, 1)),
      );
      store<u16>(to + (x >> 3), <u16>i8x16.bitmask(same));
    }
    const end = to + bytes - 1;
    store<u8>(end, load<u8>(end) & 127);
  }
}

// @ts-ignore: decorator
@inline
function largest(v: v128): i32 {
  const m = i32x4.max_s(v, v128.shuffle<i32>(v, v, 2, 3, 0, 1));
  return i32x4.extract_lane(i32x4.max_s(m, v128.shuffle<i32>(m, m, 1, 0, 3, 2)), 0);
}

/** The plane with the largest bilinear sample among four texels, two above two, with fractions fx and fy. */
// @ts-ignore: decorator
@inline
function sample(pa: usize, pb: usize, pc: usize, pd: usize, groups: i32, fx: i32, fy: i32): i32 {
  const across = i32x4.splat((fx << 16) | (SUB - fx));
  const upper = i32x4.splat(SUB - fy);
  const lower = i32x4.splat(fy);
  let best = -1;
  let winner = 0;
  for (let g = 0; g < groups; g++) {
    const step = <usize>g << 3;
    const a = v128.load_ext<u8>(pa + step);
    const b = v128.load_ext<u8>(pb + step);
    const c = v128.load_ext<u8>(pc + step);
    const d = v128.load_ext<u8>(pd + step);
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

// What a call works on: set at the start of each.
let maxX: i32 = 0;
let maxY: i32 = 0;
let left: i32 = 0;
let top: i32 = 0;
let texelPitch: i32 = 0;
let texelsAt: usize = 0;
let winnersAt: usize = 0;
let alikeAt: usize = 0;
/** Where the texels of points that are one plane's alone stand, one a plane; 0: all stand among the texels. */
let onesAt: usize = 0;
let weightsAt: usize = 0;
let groupCount: i32 = 0;
let outAt: usize = 0;
let planeBytes: usize = 0;
let rowBytes: usize = 0;
/** The grid's cell: its upper left node, and where it begins. */
let node: usize = 0;
let nodePitch: usize = 0;
let cellX: i32 = 0;
let cellY: i32 = 0;
let cellStep: i32 = 0;

/** Set in the winner of a texel that stands among the texels though most have theirs among the ones. */
const SHARED: i32 = 0x80;

// @ts-ignore: decorator
@inline
function winnerAt(at: i32): i32 {
  const winner = <i32>load<u8>(winnersAt + <usize>at);
  return onesAt ? winner & (SHARED - 1) : winner;
}

// @ts-ignore: decorator
@inline
function texelOf(at: i32): usize {
  const texel = <usize>groupCount << 3;
  if (onesAt) {
    const winner = <i32>load<u8>(winnersAt + <usize>at);
    if ((winner & SHARED) == 0) return onesAt + <usize>winner * texel;
  }
  return texelsAt + <usize>at * texel;
}

/** Cells side by side that one load of 64 bits holds, wherever they begin in a byte. */
const MOST_CELLS: i32 = 57;

/**
 * The winner of all points with places from `lo` to `hi`: 0 too when all lie outside, −1 when they must be looked at more closely.
 */
// @ts-ignore: decorator
@inline
function common(lo: v128, hi: v128): i32 {
  const loX = i32x4.extract_lane(lo, 0);
  const loY = i32x4.extract_lane(lo, 1);
  const hiX = i32x4.extract_lane(hi, 0);
  const hiY = i32x4.extract_lane(hi, 1);
  if (hiX <= -SUB || loX >= maxX || hiY <= -SUB || loY >= maxY) return 0;
  if (loX <= -SUB || hiX >= maxX || loY <= -SUB || hiY >= maxY) return -1;
  const cells = (hiX >> 11) - (loX >> 11) + 1;
  if (cells > MOST_CELLS) return -1;
  const all = (<u64>1 << <u64>cells) - 1;
  const last = (hiY >> 11) - top;
  const x = (loX >> 11) - left;
  const y = (loY >> 11) - top;
  const bytes = <usize>texelPitch >> 3;
  const by = <u64>(x & 7);
  let at = alikeAt + <usize>y * bytes + <usize>(x >> 3);
  for (let k = y; k <= last; k++) {
    if (((load<u64>(at) >> by) & all) != all) return -1;
    at += bytes;
  }
  return winnerAt(y * texelPitch + x);
}

/** The place on the line from node `n` to the one `pitch` bytes on, at the share `v` of it. */
// @ts-ignore: decorator
@inline
function borderAt(n: usize, pitch: usize, v: v128): v128 {
  const upper = f64x2.promote_low_f32x4(v128.load64_zero(n));
  const lower = f64x2.promote_low_f32x4(v128.load64_zero(n + pitch));
  return f64x2.add(upper, f64x2.mul(f64x2.sub(lower, upper), v));
}

// @ts-ignore: decorator
@inline
function inkWord(word: usize, winner: i32, bits: u32): void {
  const at = word + <usize>(winner - 1) * planeBytes;
  store<u32>(at, load<u32>(at) | bits);
}

/** Points x to before `end` of a row, which may be in several words. */
function fill(outRow: usize, winner: i32, x: i32, end: i32): void {
  if (winner == 0) return;
  while (x < end) {
    const stop = min(end, (x & ~31) + 32);
    const bits = (<u32>-1 << (x & 31)) & (<u32>-1 >> (31 - ((stop - 1) & 31)));
    inkWord(outRow + (<usize>(x >> 5) << 2), winner, bits);
    x = stop;
  }
}

// @ts-ignore: decorator
@inline
function rowShare(row: i32): v128 {
  return f64x2.splat((<f64>(row - cellY) + 0.5) / <f64>cellStep);
}

// @ts-ignore: decorator
@inline
function slopeOf(start: v128, right: v128): v128 {
  const across = f64x2.sub(right, start);
  // A power of two divides exactly by its inverse, in a fifth of the time.
  return (cellStep & (cellStep - 1)) == 0
    ? f64x2.mul(across, f64x2.splat(1.0 / <f64>cellStep))
    : f64x2.div(across, f64x2.splat(<f64>cellStep));
}

/** Rows and points of a block whose parts are looked at row by row. */
const LEAST_ROWS: i32 = 4;
const LEAST_POINTS: i32 = 32;

/**
 * Inks a block of one cell: as a whole where all of its places see one winner, else in parts. Places of a block lie between those of its
 * corners, but for rounding, which moves them by less than one of 2048.
 */
function inkBlock(x: i32, end: i32, y: i32, bottom: i32): void {
  const upper = rowShare(y);
  const lower = rowShare(bottom - 1);
  const startU = borderAt(node, nodePitch, upper);
  const slopeU = slopeOf(startU, borderAt(node + 8, nodePitch, upper));
  const startL = borderAt(node, nodePitch, lower);
  const slopeL = slopeOf(startL, borderAt(node + 8, nodePitch, lower));
  const u0 = <f64>(x - cellX) + 0.5;
  const u1 = <f64>(end - 1 - cellX) + 0.5;
  const a = place(startU, slopeU, u0);
  const b = place(startU, slopeU, u1);
  const c = place(startL, slopeL, u0);
  const d = place(startL, slopeL, u1);
  const one = i32x4.splat(1);
  const winner = common(
    i32x4.sub(i32x4.min_s(i32x4.min_s(a, b), i32x4.min_s(c, d)), one),
    i32x4.add(i32x4.max_s(i32x4.max_s(a, b), i32x4.max_s(c, d)), one),
  );
  const rows = bottom - y;
  if (winner == 0) return;
  if (winner > 0) {
    for (; y < bottom; y++) fill(outAt + <usize>y * rowBytes, winner, x, end);
  } else if (rows > 2 * LEAST_ROWS && 2 * rows >= end - x) {
    const part = (rows + 3) >> 2;
    for (; y < bottom; y += part) inkBlock(x, end, y, min(bottom, y + part));
  } else if (end - x > LEAST_POINTS) {
    for (; x < end; x = (x & ~31) + 32) inkBlock(x, min(end, (x & ~31) + 32), y, bottom);
  } else if (rows > 2 * LEAST_ROWS) {
    const part = (rows + 3) >> 2;
    for (; y < bottom; y += part) inkBlock(x, end, y, min(bottom, y + part));
  } else for (; y < bottom; y++) inkRow(x, end, y);
}

/** Inks points of one row and one cell, eight by eight. Places move one way along them: what holds at both ends holds between. */
function inkRow(x: i32, end: i32, y: i32): void {
  const v = rowShare(y);
  const start = borderAt(node, nodePitch, v);
  const slope = slopeOf(start, borderAt(node + 8, nodePitch, v));
  const outRow = outAt + <usize>y * rowBytes;
  while (x < end) {
    const stop = min(end, (x & ~7) + 8);
    const p0 = place(start, slope, <f64>(x - cellX) + 0.5);
    const p1 = place(start, slope, <f64>(stop - 1 - cellX) + 0.5);
    const winner = common(i32x4.min_s(p0, p1), i32x4.max_s(p0, p1));
    if (winner >= 0) {
      fill(outRow, winner, x, stop);
      x = stop;
      continue;
    }
    const word = outRow + (<usize>(x >> 5) << 2);
    for (; x < stop; x++) {
      const won = inkAt(place(start, slope, <f64>(x - cellX) + 0.5));
      if (won != 0) inkWord(word, won, <u32>1 << (x & 31));
    }
  }
}

/** The winner at one place. */
// @ts-ignore: decorator
@inline
function inkAt(q: v128): i32 {
  const qx = i32x4.extract_lane(q, 0);
  const qy = i32x4.extract_lane(q, 1);
  if (qx <= -SUB || qx >= maxX || qy <= -SUB || qy >= maxY) return 0;
  const at = ((qy >> 11) - top) * texelPitch + (qx >> 11) - left;
  // Rows are whole bytes.
  if ((<u32>load<u8>(alikeAt + <usize>(at >> 3)) >>> (at & 7)) & 1) return winnerAt(at);
  const fx = qx & (SUB - 1);
  const fy = qy & (SUB - 1);
  if (weightsAt) {
    const texel = <usize>groupCount << 3;
    return sampleCubic(
      texelsAt + <usize>at * texel,
      texel,
      <usize>texelPitch * texel,
      groupCount,
      fx,
      fy,
      weightsAt,
    );
  }
  const below = at + texelPitch;
  return sample(texelOf(at), texelOf(at + 1), texelOf(below), texelOf(below + 1), groupCount, fx, fy);
}

/**
 * Inks one tile. `nodes` are the grid's places, f32 pairs, rows of `cols`; the tile begins at (tileX, tileY) of the grid. The
 * region's texel (0, 0) is source point (regionX, regionY). Bits of plane k go to out + (k − 1) × outSize, rows of
 * `outPitch` bytes, from bit 0. `weights` of bicubic samples, see `sampleCubic`; 0 for bilinear ones. `ones`: see `spreadShares` in
 * winners.ts, or 0. 8 bytes must be readable beyond `alike`.
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
  alike: usize,
  ones: usize,
  out: usize,
  outSize: usize,
  outPitch: usize,
  weights: usize,
): void {
  maxX = srcWidth * SUB;
  maxY = srcHeight * SUB;
  left = regionX;
  top = regionY;
  texelPitch = pitch;
  texelsAt = texels;
  winnersAt = winners;
  alikeAt = alike;
  onesAt = ones;
  weightsAt = weights;
  groupCount = (planes + 7) >> 3;
  outAt = out;
  planeBytes = outSize;
  rowBytes = outPitch;
  nodePitch = <usize>cols << 3;
  cellStep = step;
  for (let y = 0; y < height; ) {
    const r = (tileY + y) / step;
    cellY = r * step - tileY;
    const bottom = min(height, cellY + step);
    for (let x = 0; x < width; ) {
      const c = (tileX + x) / step;
      cellX = c * step - tileX;
      node = nodes + (<usize>(r * cols + c) << 3);
      const end = min(width, cellX + step);
      inkBlock(x, end, y, bottom);
      x = end;
    }
    y = bottom;
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
