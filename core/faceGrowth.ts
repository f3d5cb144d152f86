import type { Face, Growth } from './deck/index.ts';
import type { Job } from './job/index.ts';
import { meshGrowth, reach, sectionOf } from './press/index.ts';
import { done, type Outcome } from './units/index.ts';

/** How far along the wood the mesh comes down on this face; null where the press settings give no answer. */
export function reachOf(job: Pick<Job, 'deck' | 'press'>, face: Face): { nose: number; tail: number } | null {
  const { frameLength, offContact, maxStretch } = job.press;
  const found = reach(job.deck, face, { frameLength, offContact, maxStretch });
  if (!found.ok) return null;
  const { nose, tail } = found.value.result;
  return { nose: nose.reach as number, tail: tail.reach as number };
}

/**
 * How the print grows against the film on this face, as fractions: what was measured on a test print, else the estimate.
 * Along the deck the film is made for the squeegee at mid-wheelbase. Nothing when compensation is off.
 */
export function growthOf(job: Job, face: Face): Outcome<Growth> {
  const { compensateGrowth, frameWidth, frameLength, blade, offContact, maxStretch } = job.press;
  const { along, across } = job.faces[face].measuredGrowth;
  if (!compensateGrowth) return done({ along: 0, across: 0 });
  let estimateAcross = 0;
  if (across === null) {
    const estimate = meshGrowth({ ...sectionOf(job.deck, face), blade, frame: frameWidth, offContact });
    if (!estimate.ok) return estimate;
    estimateAcross = estimate.value.result.growth;
  }
  let estimateAlong = 0;
  if (along === null) {
    const estimate = reach(job.deck, face, { frameLength, offContact, maxStretch });
    if (!estimate.ok) return estimate;
    estimateAlong = estimate.value.result.growthAtMiddle;
  }
  return done({ along: along ?? estimateAlong, across: across ?? estimateAcross });
}
