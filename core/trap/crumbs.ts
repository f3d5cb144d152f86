import { copyMask, dropSpecks, intersect, isBlank, type Mask, subtract, union } from '../raster/index.ts';
import type { Px } from '../units/index.ts';

/**
 * Of the disc as wide as the narrowest line: pieces with less are crumbs that the rule leaves in the tips of corners, for
 * it keeps every dot and line about that wide.
 */
const CRUMB = 0.7;
/** Points; a crumb even where the mesh is said to hold anything. */
const LEAST_CRUMB = 4;

/**
 * Takes from `drawn`, which is `all` drawn in by the rule of `chokeMask`, the crumbs that the rule leaves in the tips of
 * corners: pieces too small for a mesh that holds lines of `narrowestPx`. Pieces of `all` that are no larger themselves stay.
 */
export function dropCrumbs(drawn: Mask, all: Mask, narrowestPx: Px): void {
  const areaPx = Math.max(LEAST_CRUMB, (CRUMB * Math.PI * narrowestPx ** 2) / 4);
  const large = dropSpecks(drawn, areaPx);
  if (large.dropped.length === 0) return;
  const crumbs = subtract(drawn, large.mask, drawn);
  const small = dropSpecks(all, areaPx);
  if (small.dropped.length > 0) {
    const stay = intersect(crumbs, subtract(all, small.mask, all));
    if (!isBlank(stay)) union(large.mask, stay, large.mask);
  }
  copyMask(large.mask, drawn);
}
