import { blankLike, borrowMask, copyMask, giveBack, type Mask, rowsOf, union } from '../raster/index.ts';
import type { Abort, Px } from '../units/index.ts';
import { type ChokeSpare, chokeMask, chokeReach } from './choke.ts';
import { dropCrumbs } from './crumbs.ts';

/** Rows choked together: what lies between then takes little memory at any resolution. */
const BAND_ROWS = 1024;

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
export function baseMask(request: BaseRequest, abort?: Abort): Mask {
  const base = blankLike(request.own);
  chokeRows(request, 0, base.height, base, abort);
  if (!abort?.aborted) withoutCrumbs(request, base);
  return union(base, request.own, base);
}

/** own ∪ covered, borrowed. */
function allOf({ own, covered }: Pick<BaseRequest, 'own' | 'covered'>): Mask {
  const all = copyMask(own, borrowMask(own.width, own.height));
  for (const mask of covered) union(all, mask, all);
  return all;
}

/**
 * Rows `from` to before `to` of U choked, into those of `out`: what threads share out. The rows of all shares together are the
 * choke of the whole.
 */
export function chokeRows(request: BaseRequest, from: Px, to: Px, out: Mask, abort?: Abort): void {
  const spare: ChokeSpare = {};
  for (let first = from; first < to && !abort?.aborted; first += BAND_ROWS)
    chokeBand(request, first, Math.min(to, first + BAND_ROWS), out, spare, abort);
}

function chokeBand(
  { own, covered, chokePx, narrowestPx }: BaseRequest,
  from: Px,
  to: Px,
  out: Mask,
  spare: ChokeSpare,
  abort: Abort | undefined,
): void {
  const reach = chokeReach(chokePx, narrowestPx);
  const [top, bottom] = [Math.max(0, from - reach), Math.min(own.height, to + reach)];
  const all = allOf({
    own: rowsOf(own, top, bottom),
    covered: covered.map((mask) => rowsOf(mask, top, bottom)),
  });
  const choked = chokeMask(all, chokePx, narrowestPx, abort, spare);
  giveBack(all);
  copyMask(rowsOf(choked, from - top, to - top), rowsOf(out, from, to));
  giveBack(choked);
}

/** Drops from the choked `base` the crumbs that the choke left. */
export const withoutCrumbs = ({ own, covered, narrowestPx }: BaseRequest, base: Mask): void =>
  dropCrumbs(base, [own, ...covered], narrowestPx);
