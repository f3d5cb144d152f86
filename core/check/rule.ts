import type { Job } from '../job/index.ts';
import type { FaceFacts } from './input.ts';
import type { Problem } from './problem.ts';

/** A rule that needs only the document. */
export type JobRule = (job: Job) => Problem[];
/** A rule that looks at one face. */
export type FaceRule = (job: Job, facts: FaceFacts) => Problem[];
