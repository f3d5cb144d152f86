import type { Job } from '../../core/job/index.ts';

/** Whether there is a face with art and at least one ink, so that films and press sheets can be made. */
export const printedReady = (job: Job): boolean =>
  (['bottom', 'top'] as const).some(
    (face) => job.faces[face].inks.length > 0 && job.faces[face].art.some((piece) => !piece.hidden),
  );
