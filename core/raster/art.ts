import { type ArtTables, type ArtTaker, artFast, type ColourBins } from './kernels/artFast.ts';
import { kernels } from './kernels/load.ts';

/** `artFast` where the kernels are there; returns whether they are: who separates art has the plain twin. */
export function solveArt(
  words: Int32Array,
  width: number,
  height: number,
  of: ArtTables,
  planeCount: number,
  bins: ColourBins | null,
  take: ArtTaker,
): boolean {
  const fast = kernels();
  if (fast) artFast(fast, words, width, height, of, planeCount, bins, take);
  return fast !== null;
}
