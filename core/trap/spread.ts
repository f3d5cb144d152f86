import {
  addJoinedWithin,
  blankLike,
  borrowMask,
  copyInk,
  copyMask,
  giveBack,
  grow,
  intersect,
  type Mask,
  rowsOf,
  subtract,
} from '../raster/index.ts';
import { type Abort, toPx } from '../units/index.ts';
import type { PairRule } from './pairs.ts';

/** Rows worked on together: what lies between then stays in the processor's caches, and takes little memory at any resolution. */
const BAND_ROWS = 512;
/** Steps more than the width that a way may take: edges of whole points are rough, and a way along them goes round. */
const SLACK_STEPS = 2;
const waySteps = (widthMm: number, dpi: number): number => Math.ceil(toPx(widthMm, dpi)) + SLACK_STEPS;

/**
 * What ink `ink` prints: its separation and its traps. With R the separations and w a rule's width in points,
 *   T = R_i ∪ { D_w(R_i) ∩ R_j for every j that i spreads into },
 * D_w the growth by the disc dx² + dy² ≤ w²; of the added points only those stay that join R_i through added points of
 * the same R_j (8-connected) by a way no longer than w (`addJoinedWithin`), so that ink never leaps over bare wood or a third
 * ink. Without that length a disc that reaches across a narrow gap left slivers beyond it wherever R_j led around the
 * gap's end. Nothing is added on bare wood, since bare wood is in no R_j, nor on `keepOut`. Separations are disjoint masks of one size at `dpi`, in pull order.
 *
 * `out`, of the same size, blank, and none of the separations, takes the print. Once `abort` says so it stops early, with part of the traps: a caller that aborts throws the result away.
 */
export function trapInk(
  separations: readonly Mask[],
  ink: number,
  rules: readonly PairRule[],
  dpi: number,
  keepOut: Mask | null,
  abort?: Abort,
  out?: Mask,
): Mask {
  const own = separations[ink];
  if (!own) throw new RangeError(`There is no ink ${ink} among ${separations.length} separations.`);
  const print = copyInk(own, out ?? blankLike(own));
  const mine = rules
    .filter((rule) => rule.spreads === ink && rule.widthMm > 0)
    .sort((a, b) => a.widthMm - b.widthMm);
  const most = mine.at(-1)?.widthMm ?? 0;
  for (const rule of mine)
    if (!separations[rule.under])
      throw new RangeError(`A trap runs into ink ${rule.under}, of ${separations.length}.`);
  // Rows farther off than a disc and a way together change nothing.
  const reach = Math.ceil(toPx(most, dpi)) + waySteps(most, dpi) + 1;
  for (let from = 0; mine.length > 0 && from < own.height; from += BAND_ROWS) {
    if (abort?.aborted) break;
    const to = Math.min(own.height, from + BAND_ROWS);
    const [top, bottom] = [Math.max(0, from - reach), Math.min(own.height, to + reach)];
    const part = (mask: Mask) => rowsOf(mask, top, bottom);
    const traps = borrowMask(own.width, bottom - top);
    trapRows(
      part(own),
      (under) => part(separations[under] as Mask),
      mine,
      dpi,
      keepOut && part(keepOut),
      traps,
    );
    copyInk(rowsOf(traps, from - top, to - top), rowsOf(print, from, to));
    giveBack(traps);
  }
  return print;
}

/** Some rows of the print, from the same rows of all masks: right where no trap reaches in from beyond them. */
function trapRows(
  own: Mask,
  otherOf: (under: number) => Mask,
  rules: readonly PairRule[],
  dpi: number,
  keepOut: Mask | null,
  print: Mask,
): void {
  copyMask(own, print);
  const grown = borrowMask(own.width, own.height);
  const into = borrowMask(own.width, own.height);
  let grownBy = -1;
  for (const { under, widthMm } of rules) {
    // Rules of one width share the growth, which is the dear part.
    if (grownBy !== widthMm) {
      grow(own, toPx(widthMm, dpi), grown);
      grownBy = widthMm;
    }
    intersect(grown, otherOf(under), into);
    if (keepOut) subtract(into, keepOut, into);
    addJoinedWithin(own, into, waySteps(widthMm, dpi), print);
  }
  giveBack(grown, into);
}
