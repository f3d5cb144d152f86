import { FACES } from '../../deck/index.ts';
import type { Problem } from '../problem.ts';
import type { JobRule } from '../rule.ts';
import { runAdvice } from '../runAdvice.ts';
import { seesThrough, swallows } from '../under.ts';

/** What a veneer or a colourway asks of base and order, told before the decks are on the jig. */
export const runNeeds: JobRule = (job) =>
  FACES.flatMap((face): Problem[] => {
    const settings = job.faces[face];
    if (!settings.art.some((piece) => !piece.hidden)) return [];
    return runAdvice(job, settings)
      .filter(({ ink, veneers }) => {
        // Sheer inks on dark wood have a line of their own.
        const found = settings.inks.find((i) => i.id === ink);
        const dark = (id: string) => swallows(job, id);
        return found && !(seesThrough(found) && veneers.length > 0 && veneers.every(dark));
      })
      .map(({ ink, what, mend }) => ({
        code: 'run-needs',
        severity: 'note',
        face,
        ink,
        art: null,
        what,
        where: 'whole face',
        at: null,
        mend,
      }));
  });
