import { FACES } from '../../deck/index.ts';
import type { JobRule } from '../rule.ts';

/** A job without any art that shows has nothing to print. */
export const jobWithoutArt: JobRule = (job) => {
  const pieces = FACES.flatMap((face) => job.faces[face].art);
  if (pieces.some((art) => !art.hidden)) return [];
  const hidden = pieces.length > 0;
  return [
    {
      code: 'no-art',
      severity: 'error',
      face: null,
      ink: null,
      art: null,
      what: hidden ? 'All art of this job is hidden.' : 'This job has no art yet.',
      where: '',
      at: null,
      mend: hidden ? 'Show the pieces that are to print.' : 'Add art to a face.',
    },
  ];
};
