import { FACES } from '../../deck/index.ts';
import type { JobRule } from '../rule.ts';

/** Art on a face that has no ink can't be separated. */
export const artWithoutInk: JobRule = (job) =>
  FACES.filter((face) => {
    const { art, inks } = job.faces[face];
    return inks.length === 0 && art.some((piece) => !piece.hidden);
  }).map((face) => ({
    code: 'no-inks',
    severity: 'error',
    face,
    ink: null,
    art: null,
    what: `The ${face} has art but no ink.`,
    where: 'whole face',
    at: null,
    mend: 'Choose its inks, or let them be suggested from the art.',
  }));
