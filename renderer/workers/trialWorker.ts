import * as Comlink from 'comlink';
import type { TrialShown } from '../../core/trap/index.ts';
import { type TrialPart, type TriedFace, trialPart } from '../../core/trapTrials.ts';

let face: TriedFace | null = null;

/** Register errors tried on one face, part by part. Several such workers share a run; they are ended when it is over. */
const api = {
  take(tried: TriedFace): void {
    face = tried;
  },
  part: (part: TrialPart): TrialShown[] => (face ? trialPart(face, part) : []),
};

export type TrialWorker = typeof api;
Comlink.expose(api);
