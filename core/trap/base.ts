import { copyMask, dropSpecks, intersect, isBlank, type Mask, subtract, union } from '../raster/index.ts';
import type { Abort, Px } from '../units/index.ts';
import { chokeMask } from './choke.ts';

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
 * Of the disc as wide as the narrowest line: pieces with less are crumbs that the rule leaves in the tips of corners, for
 * it keeps every dot and line about that wide.
 */
const CRUMB = 0.7;
/** Points; a crumb even where the mesh is said to hold anything. */
const LEAST_CRUMB = 4;

/**
 * What the base prints. With U = own ∪ covered: own ∪ (U choked by the rule of `chokeMask`). It draws back from the outer
 * edges of the inks that cover it and from nothing else: between its own white and a covered ink it runs through. Crumbs
 * that the choke leaves in sharp corners, too small for the mesh to hold, are dropped; pieces of U that small stay.
 */
export function baseMask({ own, covered, chokePx, narrowestPx }: BaseRequest, abort?: Abort): Mask {
  const all = copyMask(own);
  for (const mask of covered) union(all, mask, all);
  const base = chokeMask(all, chokePx, narrowestPx, abort);
  if (abort?.aborted) return base;
  dropCrumbs(base, all, Math.max(LEAST_CRUMB, (CRUMB * Math.PI * narrowestPx ** 2) / 4));
  return union(base, own, base);
}

/** Takes from `base` its pieces below `areaPx` points, but for those of pieces of `all` that are no larger themselves. */
function dropCrumbs(base: Mask, all: Mask, areaPx: number): void {
  const large = dropSpecks(base, areaPx);
  if (large.dropped.length === 0) return;
  const crumbs = subtract(base, large.mask, base);
  const small = dropSpecks(all, areaPx);
  if (small.dropped.length > 0) {
    const stay = intersect(crumbs, subtract(all, small.mask, all));
    if (!isBlank(stay)) union(large.mask, stay, large.mask);
  }
  copyMask(large.mask, base);
}
