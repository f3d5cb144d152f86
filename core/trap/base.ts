import { blankLike, type Mask, union } from '../raster/index.ts';
import type { Abort, Px } from '../units/index.ts';
import { chokeInk } from './choke.ts';
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
 * What the base prints. With U = own ∪ covered: own ∪ (U choked by the rule of `chokeInk`). It draws back from the outer
 * edges of the inks that cover it and from nothing else: between its own white and a covered ink it runs through. Crumbs
 * that the choke leaves in sharp corners, too small for the mesh to hold, are dropped; pieces of U that small stay.
 */
export function baseMask(request: BaseRequest, abort?: Abort): Mask {
  const base = blankLike(request.own);
  chokeRows(request, 0, base.height, base, abort);
  if (!abort?.aborted) withoutCrumbs(request, base);
  return union(base, request.own, base);
}

/**
 * Rows `from` to before `to` of U choked, into those of `out`: what threads share out. The rows of all shares together are the
 * choke of the whole.
 */
export const chokeRows = (
  { own, covered, chokePx, narrowestPx }: BaseRequest,
  from: Px,
  to: Px,
  out: Mask,
  abort?: Abort,
): void => chokeInk([own, ...covered], chokePx, narrowestPx, from, to, out, abort);

/** Drops from the choked `base` the crumbs that the choke left. */
export const withoutCrumbs = ({ own, covered, narrowestPx }: BaseRequest, base: Mask): void =>
  dropCrumbs(base, [own, ...covered], narrowestPx);
