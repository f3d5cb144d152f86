import { kernels } from './kernels/load.ts';
import { thumbnailFast } from './kernels/thumbnailFast.ts';
import { thumbnailPlain } from './kernels/thumbnailPlain.ts';
import { blankMask, type Mask } from './mask.ts';
import type { PxBox } from './measure.ts';

/**
 * A mask, or a window of it that may reach beyond it, `factor` times smaller: a point has ink where any of its square had, so
 * that fine lines stay seen. Squares are counted from the window's top left point; `factor` is whole, 1 to 32.
 */
export function thumbnail(
  mask: Mask,
  factor: number,
  window: PxBox = { x: 0, y: 0, width: mask.width, height: mask.height },
): Mask {
  const out = blankMask(Math.ceil(window.width / factor), Math.ceil(window.height / factor));
  const fast = kernels();
  if (fast) thumbnailFast(fast, mask, factor, window, out);
  else thumbnailPlain(mask, factor, window, out);
  return out;
}
