import type { Px } from '../units/index.ts';
import { subtract } from './algebra.ts';
import { discHalfWidths } from './disc.ts';
import { growRowsFast, openRowsFast } from './kernels/growFast.ts';
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
  const words = (mask.width + 31) >>> 5;
  if (words === 0) return out;
  const { stride, height } = mask;
  const of = { stride, words, tail: tailBits(mask.width), height, half };
  const input = signedWords(out.data.buffer === mask.data.buffer ? copyMask(mask) : mask);
  const output = signedWords(out);
  const fast = kernels();
  if (fast) growRowsFast(fast, input, output, of, shrinking);
  else growRowsPlain(input, output, of, shrinking);
  return out;
}

/**
 * What a disc of `radiusPx` can reach while it stays inside the ink: shrink, then grow (the morphological opening).
 * `out`, of the same size, may be the mask itself.
 */
export function opening(mask: Mask, radiusPx: Px, out: Mask = blankLike(mask)): Mask {
  return opened(mask, radiusPx, out, false);
}

/** Ink too thin for a disc of `radiusPx`: the mask without its opening. Lines narrower than about 2r and sharp corners. */
export function thinParts(mask: Mask, radiusPx: Px, out: Mask = blankLike(mask)): Mask {
  return opened(mask, radiusPx, out, true);
}

function opened(mask: Mask, radiusPx: Px, out: Mask, thin: boolean): Mask {
  sameSize(mask, out);
  const half = discHalfWidths(radiusPx);
  const words = (mask.width + 31) >>> 5;
  const fast = kernels();
  if (words > 0 && half.length > 1 && fast) {
    const { stride, height } = mask;
    const input = signedWords(out.data.buffer === mask.data.buffer ? copyMask(mask) : mask);
    openRowsFast(
      fast,
      input,
      signedWords(out),
      { stride, words, tail: tailBits(mask.width), height, half },
      thin,
    );
    return out;
  }
  return openedPlain(mask, radiusPx, out, thin);
}

/** The readable definition of `opening` and `thinParts`. */
export function openedPlain(mask: Mask, radiusPx: Px, out: Mask, thin: boolean): Mask {
  const open = grow(shrink(mask, radiusPx), radiusPx);
  return thin ? subtract(mask, open, out) : copyMask(open, out);
}
