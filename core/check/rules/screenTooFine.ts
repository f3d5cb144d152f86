import { FACES } from '../../deck/index.ts';
import { DEFAULT_HALFTONE, LEAST_CELL, screensDots } from '../../job/index.ts';
import type { JobRule } from '../rule.ts';

/** A ruling for which the printer has no room: its films would be refused. */
export const screenTooFine: JobRule = (job) =>
  FACES.filter((face) => {
    const settings = job.faces[face];
    const { lpi } = settings.halftone ?? DEFAULT_HALFTONE;
    return screensDots(settings) && settings.art.length > 0 && job.printer.dpi / lpi < LEAST_CELL;
  }).map((face) => ({
    code: 'screen-too-fine',
    severity: 'error',
    face,
    ink: null,
    art: null,
    what: `A screen of ${(job.faces[face].halftone ?? DEFAULT_HALFTONE).lpi} lines an inch has no room for dots at ${job.printer.dpi} dpi.`,
    where: 'whole face',
    at: null,
    mend: `Choose at most ${Math.floor(job.printer.dpi / LEAST_CELL)} lines an inch, or a finer printer.`,
  }));
