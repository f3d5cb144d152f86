// What `warpTile` needs, from winners alone: every point is one plane's own. Shared points are written over it afterwards.
import { reachOf } from './warp';

/** From `rows` × `pitch` winners: texels that are 255 in the winner's plane and 0 in all others, and reach. */
export function prepareWinners(
  winners: usize,
  planes: i32,
  pitch: i32,
  rows: i32,
  texels: usize,
  reach: usize,
): void {
  const size = <usize>pitch * <usize>rows;
  if (planes <= 8) {
    for (let at: usize = 0; at < size; at++)
      store<u64>(texels + (at << 3), <u64>255 << (<u64>load<u8>(winners + at) << 3));
  } else {
    const texel = <usize>(((planes + 7) >> 3) << 3);
    memory.fill(texels, 0, size * texel);
    for (let at: usize = 0; at < size; at++)
      store<u8>(texels + at * texel + <usize>load<u8>(winners + at), 255);
  }
  reachOf(winners, pitch, rows, reach);
}
