import {
  copyMask,
  crop,
  grow,
  intersect,
  joined,
  type Mask,
  opening,
  shrink,
  subtract,
  union,
} from '../raster/index.ts';
import type { Px } from '../units/index.ts';

/** A piece counts as a line when it reaches at least this many widths beyond where the ink is thick: sharp corners don't. */
const REACH = 2;

const moved = (mask: Mask, dx: Px, dy: Px): Mask => crop(mask, -dx, -dy, mask.width, mask.height);

/**
 * The ink where a disc of `widthPx` across fits: the opening by a round brush of whole width ⌊widthPx⌋, odd or even, so
 * that a line drawn exactly that wide is never called thin, however it falls on the raster.
 */
export function thickParts(mask: Mask, widthPx: Px): Mask {
  const width = Math.floor(widthPx);
  if (width <= 1) return copyMask(mask);
  if (width % 2 === 1) return opening(mask, (width - 1) / 2);
  const radius = (width - 2) / 2;
  const fits = shrink(mask, radius);
  intersect(fits, moved(fits, -1, 0), fits);
  intersect(fits, moved(fits, 0, -1), fits);
  union(fits, moved(fits, 1, 0), fits);
  union(fits, moved(fits, 0, 1), fits);
  return grow(fits, radius, fits);
}

/**
 * Lines (or gaps, of a complement) narrower than `widthPx`, and pieces that small: what the round brush can't reach,
 * without the slivers it leaves in corners of more than about 25°.
 */
export function thinLines(mask: Mask, widthPx: Px): Mask {
  const thick = thickParts(mask, widthPx);
  const thin = subtract(mask, thick);
  const seeds = subtract(thin, grow(thick, REACH * widthPx, thick), thick);
  return joined(seeds, thin);
}
