import { colourName } from '../../core/colour/index.ts';
import type { Face } from '../../core/deck/index.ts';
import { inkFrom, type Job } from '../../core/job/index.ts';
import { addInk } from '../state/index.ts';

/** The face with one ink more, of this colour; the same job where an ink prints it already. */
export function inkOfColour(job: Job, face: Face, hex: string): Job {
  const { inks } = job.faces[face];
  if (inks.some((ink) => (ink.matches ?? ink.hex) === hex)) return job;
  return addInk(job, face, inkFrom({ name: colourName(hex), hex }, inks));
}
