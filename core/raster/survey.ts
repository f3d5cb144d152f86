import { kernels } from './kernels/load.ts';
import { surveyFast } from './kernels/surveyFast.ts';
import { type InkSurvey, surveyPlain } from './kernels/surveyPlain.ts';
import type { Mask } from './mask.ts';
import type { PxBox } from './measure.ts';

/**
 * How much ink every row and column of the mask has and where it begins and ends, in one go. Rows are counted whole, columns estimated
 * from every `step`-th row, from 1 and the topmost.
 */
export function surveyInk(mask: Mask, step: number): InkSurvey {
  const fast = mask.width > 0 && mask.height > 0 ? kernels() : null;
  return fast ? surveyFast(fast, mask, step) : surveyPlain(mask, step);
}

/** The smallest box of points that holds all ink, or null when there is none. */
export function surveyedBox({ right, left, bottom }: InkSurvey): PxBox | null {
  const top = right.findIndex((last) => last >= 0);
  if (top < 0) return null;
  const x = left.reduce((least, first) => Math.min(least, first));
  return {
    x,
    y: top,
    width: right.reduce((most, last) => Math.max(most, last)) - x + 1,
    height: bottom.reduce((most, last) => Math.max(most, last)) - top + 1,
  };
}
