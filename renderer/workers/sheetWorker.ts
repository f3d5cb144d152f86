import * as Comlink from 'comlink';
import type { Face } from '../../core/deck/index.ts';
import type { PreviewPrints } from '../../core/filmPreview.ts';
import type { Job } from '../../core/job/index.ts';
import type { PlannedFilms } from './filmPlan.ts';
import { FilmPlans } from './filmPlans.ts';

/** A face's prints, by the number that the worker which made them gave them. */
export interface NumberedPrints {
  readonly number: number;
  readonly prints: PreviewPrints;
}

const held = new Map<Face, NumberedPrints>();
const plans = new FilmPlans();

function laid(job: Job, face: Face, prints: PreviewPrints): PlannedFilms {
  const planner = plans.get(job, face, prints);
  if (planner.ok) return planner.value(job.faces[face].boundaries);
  const { reason, mend } = planner;
  return { face, films: [], pages: 0, notes: [], trouble: { reason, mend } };
}

/**
 * Lays films on sheets in a worker of its own: a hand that drags a boundary waits neither for the check nor for a fine
 * proof, which take longer than the cut it wants to see.
 */
const api = {
  /** Takes a face's prints, in place of those it held. */
  take(face: Face, numbered: NumberedPrints): void {
    held.set(face, numbered);
  },
  forget(): void {
    held.clear();
    plans.clear();
  },
  /**
   * How the films of a face fall on sheets, from the prints of that number, or from whichever it holds; null where it has
   * none such. Where they do not fit, the sentence that says so is in it.
   */
  plan(job: Job, face: Face, number: number | null): PlannedFilms | null {
    const known = held.get(face);
    return known && (number === null || known.number === number) ? laid(job, face, known.prints) : null;
  },
};

export type SheetWorker = typeof api;
Comlink.expose(api);
