import { isBlank } from '../../raster/index.ts';
import type { FaceRule } from '../rule.ts';

/** An ink whose film would be empty. */
export const blankInk: FaceRule = (job, facts) =>
  job.faces[facts.face].inks
    .filter((ink, place) => {
      const { separations, prints } = facts;
      if (ink.kind === 'clear' || facts.art.length === 0) return false;
      return isBlank(separations[place]!) && isBlank(prints[place]!);
    })
    .map((ink) => ({
      code: 'ink-without-print',
      severity: 'warning',
      face: facts.face,
      ink: ink.id,
      art: null,
      what: `${ink.name} has nothing to print on the ${facts.face}: no part of the art has its colour ${ink.hex}.`,
      where: 'whole face',
      at: null,
      mend: 'Set it to a colour of the art, or take it out of the pull order.',
    }));
