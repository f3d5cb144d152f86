import { type Component, components } from './components.ts';
import { kernels } from './kernels/load.ts';
import { smallPiecesFast } from './kernels/smallPiecesFast.ts';
import type { Mask } from './mask.ts';

/** The definition and the fallback of `smallPiecesFast`. */
export const smallPiecesPlain = (mask: Mask, below: number): Component[] =>
  components(mask).filter(({ area }) => area < below);

/** The 8-connected pieces of ink of fewer than `below` points, in reading order of their first points. Cost: words plus runs. */
export function smallPieces(mask: Mask, below: number): Component[] {
  const fast = mask.width > 0 && mask.height > 0 ? kernels() : null;
  return fast ? smallPiecesFast(fast, mask, below) : smallPiecesPlain(mask, below);
}
