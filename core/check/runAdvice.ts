import type { FaceJob, Job } from '../job/index.ts';
import type { RunAdvice } from './advice.ts';
import { baseAdvice } from './baseAdvice.ts';
import { orderAdvice } from './orderAdvice.ts';

/** What the veneers and colourways of the run ask of the face's pulls: one sentence each and a mend. */
export const runAdvice = (job: Job, face: FaceJob): RunAdvice[] => [
  ...baseAdvice(job, face),
  ...orderAdvice(job, face),
];
