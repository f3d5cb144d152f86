import { intersect, isBlank, type Mask, union } from '../../raster/index.ts';
import { HIDES, trapPairs } from '../../trap/index.ts';
import { toPx } from '../../units/index.ts';
import type { Problem } from '../problem.ts';
import type { FaceRule } from '../rule.ts';
import { spotsOf } from '../spot.ts';
import { thinLines } from '../thinLines.ts';
import { trapsInto } from '../trapsInto.ts';
import { counted, lengthText, placeText } from '../wording.ts';

/**
 * A line between two inks, thinner than twice the trap: both run beneath all of it. Under a line that hides them no gap
 * can open, but it must be pulled true; one that does not hide them changes colour.
 */
export const trapMeetsUnderLine: FaceRule = (job, facts) => {
  const face = job.faces[facts.face];
  const rules = trapPairs(face.inks, face.traps);
  return face.inks.flatMap((ink, place): Problem[] => {
    const into = rules.filter((rule) => rule.under === place && rule.widthMm > 0);
    const widest = Math.max(0, ...into.map((rule) => rule.widthMm));
    if (widest === 0 || isBlank(facts.separations[place]!)) return [];
    const lines = thinLines(facts.separations[place]!, toPx(2 * widest, facts.dpi));
    let once: Mask | null = null;
    let twice: Mask | null = null;
    for (const { mask } of trapsInto(face, facts, place)) {
      const here = intersect(mask, lines);
      if (once) {
        const both = intersect(once, here);
        twice = twice ? union(twice, both, twice) : both;
        union(once, here, once);
      } else once = here;
    }
    const spots = twice && spotsOf(facts, twice, { leastPx: 4 });
    if (!spots) return [];
    const hides = ink.opacity >= HIDES;
    return [
      {
        code: 'line-thinner-than-traps',
        severity: hides ? 'note' : 'warning',
        face: facts.face,
        ink: ink.id,
        art: null,
        what: hides
          ? `Two inks meet beneath ${ink.name} in ${counted(spots.count, 'place', 'places')} where it is thinner than ${lengthText(job, 2 * widest)}, twice the trap; no wood can show, but the line must be pulled true.`
          : `Two inks overlap beneath ${ink.name} in ${counted(spots.count, 'place', 'places')} where it is thinner than ${lengthText(job, 2 * widest)}, twice the trap, and it does not hide them: the line changes colour there.`,
        where: `largest ${placeText(job, spots.at)}`,
        at: spots.at,
        mend: hides
          ? 'Nothing to do, or thicken the line.'
          : 'Thicken the line, make the trap smaller, or use an ink that hides.',
      },
    ];
  });
};
