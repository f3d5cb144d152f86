import { blankMask, complement, intersect, union } from '../../raster/index.ts';
import { toPx } from '../../units/index.ts';
import type { FaceRule } from '../rule.ts';
import { spotsOf } from '../spot.ts';
import { thinLines } from '../thinLines.ts';
import { counted, lengthText, placeText } from '../wording.ts';
import { FINEST_MM, LONG_ENOUGH } from './fineLines.ts';

/** Gaps of bare wood so fine that ink closes them. */
export const fineGaps: FaceRule = (job, facts) => {
  const { width, height } = facts.printable;
  const inked = blankMask(width, height);
  for (const mask of facts.separations) union(inked, mask, inked);
  const gaps = thinLines(complement(inked), toPx(FINEST_MM, facts.dpi));
  const spots = spotsOf(facts, intersect(gaps, facts.printable, gaps), LONG_ENOUGH);
  if (!spots) return [];
  return [
    {
      code: 'fine-gaps',
      severity: 'warning',
      face: facts.face,
      ink: null,
      art: null,
      what: `Gaps finer than ${lengthText(job, FINEST_MM)} in ${counted(spots.count, 'place', 'places')} may close with ink.`,
      where: `longest ${placeText(job, spots.at)}`,
      at: spots.at,
      mend: 'Open them in the art, or let one ink run through.',
    },
  ];
};
