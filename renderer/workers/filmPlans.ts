import type { Face } from '../../core/deck/index.ts';
import type { FacePreview } from '../../core/facePreview.ts';
import type { Job } from '../../core/job/index.ts';
import type { Outcome } from '../../core/units/index.ts';
import { type FilmPlanner, filmPlanner, type PlannedFilms } from './filmPlan.ts';

interface Kept {
  readonly preview: FacePreview;
  readonly key: string;
  readonly planner: Outcome<FilmPlanner>;
}

/** What sheets and labels depend on besides the preview and the boundaries. */
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

  /** How a face's films fall on sheets. Where they do not fit, the sentence that says so is in it. */
  get(job: Job, face: Face, preview: FacePreview): PlannedFilms {
    const key = keyOf(job, face);
    let kept = this.kept.get(face);
    if (!kept || kept.preview !== preview || kept.key !== key) {
      kept = { preview, key, planner: filmPlanner(job, face, preview) };
      this.kept.set(face, kept);
    }
    const { planner } = kept;
    if (planner.ok) return planner.value(job.faces[face].boundaries);
    const { reason, mend } = planner;
    return { face, films: [], pages: 0, notes: [], trouble: { reason, mend } };
  }
}
