import { blankLike, intersect, type Mask } from '../raster/index.ts';
import type { Abort, Px } from '../units/index.ts';
import { chokeInk } from './choke.ts';
import { dropCrumbs } from './crumbs.ts';

/**
 * An ink's print drawn in by `gainPx` wherever it meets bare wood, so that fine gaps (lettering knocked out of it) do not
 * close when the mesh lets ink spread by that much. Its own thin lines are kept by the rule of `chokeInk`, crumbs of it in
 * the tips of corners are dropped, and edges against `others`, the other inks' separations, stay where they are.
 *
 * Once `abort` says so it stops early and the result is worthless.
 */
export function holdOpen(
  print: Mask,
  others: readonly Mask[],
  gainPx: Px,
  narrowestPx: Px,
  abort?: Abort,
): Mask {
  const all = [print, ...others];
  const kept = blankLike(print);
  chokeInk(all, gainPx, narrowestPx, 0, print.height, kept, abort);
  if (abort?.aborted) return kept;
  dropCrumbs(kept, all, narrowestPx);
  return intersect(kept, print, kept);
}
