// What `warpTile` needs, from winners alone: every point is one plane's own, but for the shared ones.
import { alikeCells } from './warp';

/**
 * Of `rows` × `pitch` winners which cells are alike; then of `count` shared points (`places` in the picture of `srcWidth` points a row, ascending,
 * and at `shares` a byte a plane) those in the region: their texels to `texels`, and 0x80 into their winners. `ones` takes a texel a plane,
 * 255 in that alone.
 */
export function spreadShares(
  winners: usize,
  planes: i32,
  pitch: i32,
  rows: i32,
  alike: usize,
  places: usize,
  shares: usize,
  count: i32,
  srcWidth: i32,
  regionX: i32,
  regionY: i32,
  regionWidth: i32,
  texels: usize,
  ones: usize,
): void {
  alikeCells(winners, pitch, rows, alike);
  const texel = <usize>(((planes + 7) >> 3) << 3);
  memory.fill(ones, 0, <usize>planes * texel);
  for (let p: usize = 0; p < <usize>planes; p++) store<u8>(ones + p * texel + p, 255);
  let y = 0;
  let row = 0;
  for (let k = 0; k < count; k++) {
    const place = load<i32>(places + (<usize>k << 2));
    if (k == 0 || place >= row + srcWidth) {
      y = place / srcWidth;
      row = y * srcWidth;
    }
    const x = place - row - regionX;
    if (x < 0 || x >= regionWidth) continue;
    const at = <usize>((y - regionY) * pitch + x);
    store<u8>(winners + at, load<u8>(winners + at) | 0x80);
    const to = texels + at * texel;
    const from = shares + <usize>(k * planes);
    if (planes <= 8) {
      let eight: u64 = 0;
      for (let p: usize = 0; p < <usize>planes; p++) eight |= <u64>load<u8>(from + p) << (<u64>p << 3);
      store<u64>(to, eight);
    } else {
      memory.fill(to, 0, texel);
      memory.copy(to, from, <usize>planes);
    }
  }
}
