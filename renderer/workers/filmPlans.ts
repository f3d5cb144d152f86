import type { Face } from '../../core/deck/index.ts';
import type { PreviewPrints } from '../../core/filmPreview.ts';
import type { Job } from '../../core/job/index.ts';
import type { Outcome } from '../../core/units/index.ts';
import { type FilmPlanner, filmPlanner } from './filmPlan.ts';

interface Kept {
  readonly prints: PreviewPrints;
  readonly key: string;
  readonly planner: Outcome<FilmPlanner>;
}

/** What sheets and labels depend on besides the prints and the boundaries. */
const keyOf = (job: Job, face: Face): string => {
  const { boundaries: _, art: __, ...settings } = job.faces[face];
  return JSON.stringify([job.name, job.deck, job.press, job.printer, settings]);
};

/** The last planner of each face, so that a dragged boundary waits for its own cut alone. */
export class FilmPlans {
  private readonly kept = new Map<Face, Kept>();

  clear(): void {
    this.kept.clear();
  }

  /** The planner of a face's films, or the sentence that says why they fit on no sheet. */
  get(job: Job, face: Face, prints: PreviewPrints): Outcome<FilmPlanner> {
    const key = keyOf(job, face);
    const kept = this.kept.get(face);
    if (kept?.prints === prints && kept.key === key) return kept.planner;
    const planner = filmPlanner(job, face, prints);
    this.kept.set(face, { prints, key, planner });
    return planner;
  }
}
