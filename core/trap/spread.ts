import { copyMask, grow, intersect, joinedWithin, type Mask, subtract, union } from '../raster/index.ts';
import { type Abort, toPx } from '../units/index.ts';
import type { PairRule } from './pairs.ts';

/** Steps more than the width that a way may take: edges of whole points are rough, and a way along them goes round. */
const SLACK_STEPS = 2;

/**
 * What ink `ink` prints: its separation and its traps. With R the separations and w a rule's width in points,
 *   T = R_i ∪ { D_w(R_i) ∩ R_j for every j that i spreads into },
 * D_w the growth by the disc dx² + dy² ≤ w²; of the added points only those stay that join R_i through added points of
 * the same R_j (8-connected) by a way no longer than w (`joinedWithin`), so that ink never leaps over bare wood or a third
 * ink. Without that length a disc that reaches across a narrow gap left slivers beyond it wherever R_j led around the
 * gap's end. Nothing is added on bare wood, since bare wood is in no R_j, nor on `keepOut`. Separations are disjoint masks of one size at `dpi`, in pull order.
 *
 * Once `abort` says so it stops early, with part of the traps: a caller that aborts throws the result away.
 */
export function trapInk(
  separations: readonly Mask[],
  ink: number,
  rules: readonly PairRule[],
  dpi: number,
  keepOut: Mask | null,
  abort?: Abort,
): Mask {
  const own = separations[ink];
  if (!own) throw new RangeError(`There is no ink ${ink} among ${separations.length} separations.`);
  const print = copyMask(own);
  const mine = rules
    .filter((rule) => rule.spreads === ink && rule.widthMm > 0)
    .sort((a, b) => a.widthMm - b.widthMm);
  let grown: Mask | null = null;
  let grownBy = -1;
  let into: Mask | null = null;
  for (const { under, widthMm } of mine) {
    if (abort?.aborted) break;
    const other = separations[under];
    if (!other) throw new RangeError(`A trap runs into ink ${under}, of ${separations.length}.`);
    // Rules of one width share the growth, which is the dear part.
    if (!grown || grownBy !== widthMm) {
      grown = grow(own, toPx(widthMm, dpi), grown ?? undefined);
      grownBy = widthMm;
    }
    into = intersect(grown, other, into ?? undefined);
    if (keepOut) subtract(into, keepOut, into);
    union(print, joinedWithin(own, into, Math.ceil(toPx(widthMm, dpi)) + SLACK_STEPS), print);
  }
  return print;
}
