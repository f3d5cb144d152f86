import { DEFAULT_HALFTONE, DEFAULT_INDEX, type Job, screenedInks } from '../../job/index.ts';
import { MM_PER_INCH } from '../../units/index.ts';
import type { FaceFacts } from '../input.ts';
import type { Problem } from '../problem.ts';

/** Threads a line of a halftone, at least: mesh makers' published examples begin at 3.75 (150/cm for 40 lines/cm). */
const THREADS_A_LINE = 3.75;
/** Threads across an index dot, at least, so that each dot holds to the mesh. Common practice, no source. */
const THREADS_A_DOT = 1.5;

/** Dots or a ruling finer than an ink's mesh can hold. */
export function dotsForMesh(job: Job, { face }: FaceFacts): Problem[] {
  const settings = job.faces[face];
  const screened = new Set(screenedInks(settings));
  return settings.inks.flatMap((ink, at): Problem[] => {
    const indexed =
      settings.method === 'index' && ink.role === 'colour' && ink.kind !== 'clear' && ink.split !== 'spot';
    if (!indexed && !screened.has(at)) return [];
    const { lpi } = settings.halftone ?? DEFAULT_HALFTONE;
    const { dotMm } = settings.index ?? DEFAULT_INDEX;
    const halftone = !indexed;
    const needed = halftone ? (THREADS_A_LINE * lpi) / (MM_PER_INCH / 10) : (THREADS_A_DOT * 10) / dotMm;
    if (ink.meshPerCm >= needed) return [];
    const mesh = `the mesh of ${ink.name}, ${ink.meshPerCm} threads/cm`;
    const finest = halftone
      ? `at most ${Math.floor((ink.meshPerCm * (MM_PER_INCH / 10)) / THREADS_A_LINE)} lines an inch`
      : `dots of at least ${(Math.ceil((THREADS_A_DOT * 1000) / ink.meshPerCm) / 100).toFixed(2)} mm`;
    return [
      {
        code: 'dots-for-mesh',
        severity: 'warning',
        face,
        ink: ink.id,
        art: null,
        what: `${halftone ? `A screen of ${lpi} lines an inch` : `A dot of ${dotMm} mm`} is too fine for ${mesh}.`,
        where: '',
        at: null,
        mend: `Choose ${finest}, or a mesh of at least ${Math.ceil(needed)} threads/cm.`,
      },
    ];
  });
}
