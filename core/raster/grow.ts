import type { Px } from '../units/index.ts';
import { discHalfWidths } from './disc.ts';
import { growRowsFast } from './kernels/growFast.ts';
import { growRowsPlain } from './kernels/growPlain.ts';
import { kernels } from './kernels/load.ts';
import { blankLike, copyMask, type Mask, sameSize, signedWords, tailBits } from './mask.ts';

/**
 * Every point within `radiusPx` of ink: growth by the digital disc dx² + dy² ≤ r², exact for any real r ≥ 0 (a Minkowski
 * sum). There is no ink outside the mask. `out`, of the same size, may be the mask itself.
 */
export function grow(mask: Mask, radiusPx: Px, out: Mask = blankLike(mask)): Mask {
  return byDisc(mask, radiusPx, out, false);
}

/**
 * Every point whose whole disc dx² + dy² ≤ r² is ink: erosion, exact for any real r ≥ 0. Outside the mask counts as
 * bare, so ink shrinks away from the mask's borders too. `out`, of the same size, may be the mask itself.
 */
export function shrink(mask: Mask, radiusPx: Px, out: Mask = blankLike(mask)): Mask {
  return byDisc(mask, radiusPx, out, true);
}

function byDisc(mask: Mask, radiusPx: Px, out: Mask, shrinking: boolean): Mask {
  sameSize(mask, out);
  const half = discHalfWidths(radiusPx);
  if (half.length === 1) return mask === out ? out : copyMask(mask, out);
  const source = out.data.buffer === mask.data.buffer ? copyMask(mask) : mask;
  const words = (mask.width + 31) >>> 5;
  if (words === 0) return out;
  const tail = tailBits(mask.width);
  const input = signedWords(source);
  const output = signedWords(out);
  const fast = kernels();
  if (fast) growRowsFast(fast, input, output, mask.stride, words, tail, mask.height, half, shrinking);
  else growRowsPlain(input, output, mask.stride, words, tail, mask.height, half, shrinking);
  return out;
}
