import type { Face } from '../../core/deck/index.ts';
import type { Job } from '../../core/job/index.ts';
import { edit, moveBoundaries, tell, useStudio } from '../state/index.ts';
import { back, latestWins } from '../workers/index.ts';

/** The newest plan asked for while a boundary is dragged. */
const plan = latestWins<{ job: Job; face: Face }, Awaited<ReturnType<typeof back.plan>>>(
  (asked) => back.plan(asked.job, asked.face),
  (made, asked) => {
    if (made.ok && useStudio.getState().face === asked.face) useStudio.setState({ filmPlan: made.value });
  },
  () => tell('trouble', 'The cut could not be found.', 'Undo the last change.'),
);

/** Moves where an ink's sheets meet, mm of its film from tail to nose, and finds the cuts anew at once; null lets Kickflat choose. */
export function putBoundaries(face: Face, inkId: string, mm: readonly number[] | null): void {
  const label = mm ? 'Move a sheet boundary' : 'Give a sheet boundary back';
  // A drag is one step to undo, and giving a boundary back another.
  edit(label, (j) => moveBoundaries(j, face, inkId, mm), mm ? `boundary ${inkId}` : null);
  const { job } = useStudio.getState();
  if (job) plan({ job, face });
}
