import { toPx } from '../../units/index.ts';
import type { Problem } from '../problem.ts';
import type { FaceRule } from '../rule.ts';
import { spotsOf } from '../spot.ts';
import { thinLines } from '../thinLines.ts';
import { counted, lengthText, placeText } from '../wording.ts';

/** mm; a hand-pulled mesh loses finer lines, and closes finer gaps. Common practice, no source. */
export const FINEST_MM = 0.3;
/** Shorter ones are the tips of tapering strokes, which print a little blunter and no worse. */
export const LONG_ENOUGH = { leastMm: 4 * FINEST_MM, chief: 'longest' } as const;

/** Lines of an ink too fine to burn, wash out and print. */
export const fineLines: FaceRule = (job, facts) =>
  job.faces[facts.face].inks.flatMap((ink, place): Problem[] => {
    const separation = facts.separations[place]!;
    const spots = spotsOf(facts, thinLines(separation, toPx(FINEST_MM, facts.dpi)), LONG_ENOUGH);
    if (!spots) return [];
    return [
      {
        code: 'fine-lines',
        severity: 'warning',
        face: facts.face,
        ink: ink.id,
        art: null,
        what: `${ink.name} has lines finer than ${lengthText(job, FINEST_MM)} in ${counted(spots.count, 'place', 'places')}; they may not print.`,
        where: `longest ${placeText(job, spots.at)}`,
        at: spots.at,
        mend: 'Thicken them in the art, or choose a finer mesh and test it.',
      },
    ];
  });
