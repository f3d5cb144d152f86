import type { Px } from '../units/index.ts';
import { drawInFast, FARTHEST_DISC } from './kernels/drawInFast.ts';
import { type DrawIn, drawInPlain } from './kernels/drawInPlain.ts';
import { kernels } from './kernels/load.ts';
import { type Mask, sameSize } from './mask.ts';

/**
 * Rows `from` to before `to` of the ink of all `masks` together, drawn in from its edges as `how` says, into the same rows of `out`. Beyond
 * the masks lies bare ground. `out`, of the same size, may be none of the masks.
 */
export function drawInRows(masks: readonly Mask[], from: Px, to: Px, how: DrawIn, out: Mask): void {
  for (const mask of masks) sameSize(mask, out);
  const fast = out.width > 0 && how.largest <= FARTHEST_DISC ** 2 ? kernels() : null;
  if (fast) drawInFast(fast, masks, from, to, how, out);
  else drawInPlain(masks, from, to, how, out);
}
