import type { Px } from '../units/index.ts';
import { subtract } from './algebra.ts';
import { grow, shrink } from './grow.ts';
import { blankLike, type Mask } from './mask.ts';

/**
 * What a disc of `radiusPx` can reach while it stays inside the ink: shrink, then grow (the morphological opening).
 * `out`, of the same size, may be the mask itself.
 */
export function opening(mask: Mask, radiusPx: Px, out: Mask = blankLike(mask)): Mask {
  shrink(mask, radiusPx, out);
  return grow(out, radiusPx, out);
}

/** Ink too thin for a disc of `radiusPx`: the mask without its opening. Lines narrower than about 2r and sharp corners. */
export function thinParts(mask: Mask, radiusPx: Px): Mask {
  const open = opening(mask, radiusPx);
  return subtract(mask, open, open);
}
