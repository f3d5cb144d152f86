import type { Px } from '../units/index.ts';
import { type Mask, strideFor } from './mask.ts';

/** Masks kept for the next borrower; more of a film at 1200 dpi would be more than the work itself needs. */
const MOST_KEPT = 3;
const kept: Uint32Array[] = [];

/**
 * A mask with anything in it, for what a thread works with on the way. Memory touched for the first time costs more than most of
 * what is done in it, so that one who works through many inks borrows the same again; `giveBack` it when done, and use it no more.
 */
export function borrowMask(width: Px, height: Px): Mask {
  const stride = strideFor(width);
  const words = stride * (height as number);
  const at = kept.findIndex((data) => data.length === words);
  const data = at < 0 ? new Uint32Array(words) : (kept.splice(at, 1)[0] as Uint32Array);
  return { width, height, stride, data };
}

/** Hands borrowed masks back. Those of another size than the last are let go. */
export function giveBack(...masks: readonly Mask[]): void {
  for (const { data } of masks) {
    if (kept.length > 0 && kept[0]!.length !== data.length) kept.length = 0;
    if (kept.length < MOST_KEPT) kept.push(data);
  }
}
