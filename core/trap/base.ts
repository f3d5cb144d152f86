import { borrowMask, copyMask, giveBack, type Mask, union } from '../raster/index.ts';
import type { Abort, Px } from '../units/index.ts';
import { chokeMask } from './choke.ts';
import { dropCrumbs } from './crumbs.ts';

export interface BaseRequest {
  /** Where the base itself shows as a colour of the art (with its traps, from `trapInk`, where it has any). */
  readonly own: Mask;
  /**
   * The inks it prints beneath. Their trapped prints make the base reach a little under a dark neighbour that they
   * run under; their separations keep it inside the art's own edges.
   */
  readonly covered: readonly Mask[];
  /** Points the base stays inside what covers it. */
  readonly chokePx: Px;
  /** Points, narrowest line its mesh holds: thinner parts are not choked away. */
  readonly narrowestPx: Px;
}

/**
 * What the base prints. With U = own ∪ covered: own ∪ (U choked by the rule of `chokeMask`). It draws back from the outer
 * edges of the inks that cover it and from nothing else: between its own white and a covered ink it runs through. Crumbs
 * that the choke leaves in sharp corners, too small for the mesh to hold, are dropped; pieces of U that small stay.
 */
export function baseMask({ own, covered, chokePx, narrowestPx }: BaseRequest, abort?: Abort): Mask {
  const all = copyMask(own, borrowMask(own.width, own.height));
  for (const mask of covered) union(all, mask, all);
  const base = chokeMask(all, chokePx, narrowestPx, abort);
  if (!abort?.aborted) dropCrumbs(base, all, narrowestPx);
  giveBack(all);
  return union(base, own, base);
}
