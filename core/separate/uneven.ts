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
  for (let y = 0, at = 0; y < height; y++) {
    const row = y * width;
    const down = y < height - 1 ? width : 0;
    for (let x = 0; x < width; x += 32, at++) {
      const first = row + x;
      const end = Math.min(row + width - 1, first + 32);
      let any = 0;
      for (let i = first; i < end; i++)
        any |= (points[i]! ^ points[i + 1]!) | (points[i]! ^ points[i + down]!);
      // The last column has nothing to its right.
      const corner = end === row + width - 1 && end < first + 32 ? points[end]! ^ points[end + down]! : 0;
      let h = 0;
      let v = 0;
      if (any !== 0)
        for (let i = first; i < end; i++) {
          if (points[i] !== points[i + 1]) h |= 1 << (i - first);
          if (points[i] !== points[i + down]) v |= 1 << (i - first);
        }
      if (corner !== 0) v |= 1 << (end - first);
      right[at] = h;
      below[at] = v;
    }
  }
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
