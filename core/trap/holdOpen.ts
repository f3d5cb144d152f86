import { copyMask, intersect, type Mask, union } from '../raster/index.ts';
import type { Abort, Px } from '../units/index.ts';
import { chokeMask } from './choke.ts';

/**
 * An ink's print drawn in by `gainPx` wherever it meets bare wood, so that fine gaps (lettering knocked out of it) do not
 * close when the mesh lets ink spread by that much. Its own thin lines are kept by the rule of `chokeMask`, and edges
 * against `others`, the other inks' prints, stay where they are.
 */
export function holdOpen(
  print: Mask,
  others: readonly Mask[],
  gainPx: Px,
  narrowestPx: Px,
  abort?: Abort,
): Mask {
  const all = copyMask(print);
  for (const mask of others) union(all, mask, all);
  const kept = chokeMask(all, gainPx, narrowestPx, abort);
  return intersect(kept, print, kept);
}
