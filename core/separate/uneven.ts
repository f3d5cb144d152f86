import type { Px } from '../units/index.ts';
import type { Workspace } from './workspace.ts';

/**
 * Where art is not flat: bit x & 31 of word y × ceil(width / 32) + (x >> 5) is 1 unless all nine points about (x, y) are one
 * word. Points beyond the picture's border repeat the border; bits beyond the width are 0. Most art is flat nearly
 * everywhere, and whole words of this are 0.
 */
export function unevenPoints(points: Int32Array, width: Px, height: Px, space: Workspace): Int32Array {
  const stride = (width + 31) >>> 5;
  const right = space.words('differs right', stride * height);
  const below = space.words('differs below', stride * height);
  differ(points, width, height, right, below);
  const out = space.words('uneven', stride * height);
  for (let y = 0; y < height; y++) {
    const row = y * stride;
    const up = y > 0 ? row - stride : row;
    const down = y < height - 1 ? row + stride : row;
    let carry = 0;
    for (let w = 0; w < stride; w++) {
      const sideways = right[up + w]! | right[row + w]! | right[down + w]!;
      const upright = (y > 0 ? below[up + w]! : 0) | below[row + w]!;
      out[row + w] = sideways | (sideways << 1) | carry | upright;
      carry = sideways >>> 31;
    }
    // A difference to the right never stands in the last column: its shifted bit stays within the width.
  }
  return out;
}

/**
 * Where the words of a picture, one a point, differ from the next in their row (`right`) and in their column (`below`): bit x & 31
 * of word y × ceil(width / 32) + (x >> 5). Nothing lies beyond the picture's border.
 */
function differ(
  words: Int32Array,
  width: number,
  height: number,
  right: Int32Array,
  below: Int32Array,
): void {
  const stride = (width + 31) >>> 5;
  for (let y = 0; y < height; y++)
    for (let w = 0; w < stride; w++) {
      const first = w * 32;
      const end = Math.min(width, first + 32);
      let h = 0;
      let v = 0;
      for (let x = first; x < end; x++) {
        const i = y * width + x;
        if (x + 1 < width && words[i] !== words[i + 1]) h |= 1 << (x - first);
        if (y + 1 < height && words[i] !== words[i + width]) v |= 1 << (x - first);
      }
      right[y * stride + w] = h;
      below[y * stride + w] = v;
    }
}
