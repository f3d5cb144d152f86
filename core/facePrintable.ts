import { type Face, printableRings } from './deck/index.ts';
import { reachOf } from './faceGrowth.ts';
import type { Job } from './job/index.ts';
import type { Ring } from './units/index.ts';

/** What says where ink may go on a face. */
export interface PrintableInput {
  readonly job: Pick<Job, 'deck' | 'faces' | 'press'>;
  readonly face: Face;
}

/** Rings in pixels of a grid of that size, x to the right, y down. */
export interface FillInput {
  readonly rings: readonly Ring[];
  readonly width: number;
  readonly height: number;
}

/** Where ink may go on a face: rings on the surface (s, t in mm), see `printableRings`. */
export function facePrintable({ job, face }: PrintableInput): Ring[] {
  const { railMargin, clearHoles } = job.faces[face];
  return printableRings(job.deck, face, { railMargin, clearHoles, reach: reachOf(job, face) });
}
