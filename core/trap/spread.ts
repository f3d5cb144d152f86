import { blankLike, copyInk, type Mask, rowsOf, spreadRows } from '../raster/index.ts';
import { type Abort, toPx } from '../units/index.ts';
import type { PairRule } from './pairs.ts';

/** Rows between two looks at whether to stop. */
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
  const print = out ?? blankLike(own);
  const mine = rules
    .filter((rule) => rule.spreads === ink && rule.widthMm > 0)
    .sort((a, b) => a.widthMm - b.widthMm);
  for (const rule of mine)
    if (!separations[rule.under])
      throw new RangeError(`A trap runs into ink ${rule.under}, of ${separations.length}.`);
  const ways = mine.map(({ under, widthMm }) => ({
    into: separations[under] as Mask,
    radius: toPx(widthMm, dpi),
    steps: waySteps(widthMm, dpi),
  }));
  for (let from = 0; from < own.height; from += BAND_ROWS) {
    const to = Math.min(own.height, from + BAND_ROWS);
    if (abort?.aborted) copyInk(rowsOf(own, from, to), rowsOf(print, from, to));
    else spreadRows(own, ways, keepOut, from, to, print);
  }
  return print;
}
