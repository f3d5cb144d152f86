import type { Problem } from '../problem.ts';
import type { FaceRule } from '../rule.ts';
import { listed, percentText } from '../wording.ts';

/** Shares of a piece below this are left to the notes of separation. */
const LEAST_SHARE = 0.0005;
/** Colours named in one sentence. */
const MOST_NAMED = 4;

/** Colours of the art that no ink has: they print as the nearest ink. */
export const unplannedColour: FaceRule = (job, facts) => {
  if (job.faces[facts.face].method !== 'spot') return [];
  return facts.art.flatMap((art): Problem[] => {
    const found = art.unplanned
      .filter(({ share }) => share >= LEAST_SHARE)
      .sort((a, b) => b.share - a.share || (a.hex < b.hex ? -1 : 1));
    if (found.length === 0) return [];
    const named = found.slice(0, MOST_NAMED).map(({ hex, share }) => `${hex} (${percentText(share)})`);
    if (found.length > MOST_NAMED) named.push(`${found.length - MOST_NAMED} more`);
    return [
      {
        code: 'unplanned-colour',
        severity: 'warning',
        face: facts.face,
        ink: null,
        art: art.id,
        what: `“${art.name}” has ${found.length === 1 ? 'a colour' : 'colours'} that no ink has: ${listed(named)}.`,
        where: 'whole face',
        at: null,
        mend: 'Add an ink for it, or leave it to print as the nearest ink.',
      },
    ];
  });
};
