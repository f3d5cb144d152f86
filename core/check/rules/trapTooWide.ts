import { blankMask, grow, intersect, isBlank, joined, subtract, union } from '../../raster/index.ts';
import { toPx } from '../../units/index.ts';
import type { Problem } from '../problem.ts';
import type { FaceRule } from '../rule.ts';
import { spotsOf } from '../spot.ts';
import { thinLines } from '../thinLines.ts';
import { trapsInto } from '../trapsInto.ts';
import { counted, lengthText, placeText } from '../wording.ts';

/** A trap that crosses the whole of a narrow part with bare wood beyond: a small error of the screen shows it there. */
export const trapTooWide: FaceRule = (job, facts) => {
  const face = job.faces[facts.face];
  const inked = blankMask(facts.printable.width, facts.printable.height);
  for (const mask of facts.separations) union(inked, mask, inked);
  return face.inks.flatMap((ink, place): Problem[] => {
    const separation = facts.separations[place]!;
    if (isBlank(separation)) return [];
    return trapsInto(face, facts, place).flatMap(({ rule, mask }): Problem[] => {
      if (isBlank(mask)) return [];
      const crossed = intersect(thinLines(separation, toPx(rule.widthMm, facts.dpi)), mask);
      // Points of it beside bare wood, diagonals too.
      const near = grow(crossed, Math.SQRT2);
      const open = intersect(grow(subtract(near, inked, near), Math.SQRT2), crossed);
      const spots = spotsOf(facts, joined(open, crossed), { leastPx: 4 });
      if (!spots) return [];
      const from = face.inks[rule.spreads]!;
      return [
        {
          code: 'trap-too-wide',
          severity: 'warning',
          face: facts.face,
          ink: from.id,
          art: null,
          what: `The trap of ${from.name}, ${lengthText(job, rule.widthMm)}, is wider than parts of ${ink.name} it runs into, in ${counted(spots.count, 'place', 'places')}; a small error of the screen shows it on the far side.`,
          where: `largest ${placeText(job, spots.at)}`,
          at: spots.at,
          mend: `Make this pair's trap smaller, or those parts of ${ink.name} wider.`,
        },
      ];
    });
  });
};
