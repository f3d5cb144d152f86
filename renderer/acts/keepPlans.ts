import type { Problem } from '../../core/check/index.ts';
import type { Face } from '../../core/deck/index.ts';
import type { Job } from '../../core/job/index.ts';
import type { Outcome } from '../../core/units/index.ts';
import { type StudioState, tell, useStudio } from '../state/index.ts';
import { back, latestWins, type PlannedFilms } from '../workers/index.ts';
import { failed, working } from './working.ts';

/** Milliseconds of quiet before sheets are planned anew, and before the whole job is looked over. */
const PLAN_QUIET = 250;
const CHECK_QUIET = 900;

interface Asked {
  readonly job: Job;
  readonly face: Face;
}

/** Is art of the job that was opened still being decoded? Films planned meanwhile would fall on too few sheets. */
const loading = (state: StudioState | null): boolean => state?.working.includes('art') ?? false;

/** Keeps film plans, the list of problems and the misfit of the bend in step with the document. */
export function keepPlans(): () => void {
  const plan = latestWins<Asked, Outcome<PlannedFilms>>(
    ({ job, face }) => back.plan(job, face),
    (made, { face }) => {
      working('films', false);
      if (made.ok && useStudio.getState().face === face) useStudio.setState({ filmPlan: made.value });
      else if (!made.ok) tell('trouble', made.reason, made.mend);
    },
    failed('films'),
  );
  const check = latestWins<Job, Problem[]>(
    (job) => back.check(job),
    (problems) => {
      if (useStudio.getState().job) useStudio.setState({ problems });
    },
    failed('check'),
  );
  const heat = latestWins<Asked, Awaited<ReturnType<typeof back.misfit>>>(
    ({ job, face }) => back.misfit(job, face),
    (map) => {
      working('misfit', false);
      if (useStudio.getState().face === map.face) useStudio.setState({ heat: map });
    },
    failed('misfit'),
  );
  let planned: Asked | null = null;
  let planTimer: ReturnType<typeof setTimeout> | undefined;
  let checkTimer: ReturnType<typeof setTimeout> | undefined;

  const look = (now: StudioState, before: StudioState | null) => {
    const { job, face, station } = now;
    if (!job || now.dragging) return;
    const changed = (...keys: (keyof StudioState)[]) =>
      before === null || before.dragging || keys.some((k) => now[k] !== before[k]);
    if (changed('job', 'pictures')) {
      clearTimeout(checkTimer);
      checkTimer = setTimeout(() => {
        const open = useStudio.getState().job;
        if (open) check(open);
      }, CHECK_QUIET);
    }
    const loaded = loading(before) && !loading(now);
    // At the press, register is read at the films' own marks; nothing done there changes them.
    const shown = station === 'films' || station === 'press';
    const news = loaded || changed('face', 'station', 'pictures') || (station === 'films' && changed('job'));
    if (shown && news && !loading(now)) {
      clearTimeout(planTimer);
      const known = now.filmPlan && planned?.job === job && planned.face === face;
      if (!known || loaded || changed('pictures'))
        planTimer = setTimeout(() => {
          planned = { job, face };
          working('films', true);
          plan(planned);
        }, PLAN_QUIET);
    }
    const bent =
      changed('face', 'station', 'showHeat') ||
      job.deck !== before?.job?.deck ||
      job.faces[face].development !== before.job.faces[face].development;
    if (station === 'deck' && now.showHeat && bent) {
      working('misfit', true);
      heat({ job, face });
    }
  };
  look(useStudio.getState(), null);
  const stop = useStudio.subscribe(look);
  return () => {
    clearTimeout(planTimer);
    clearTimeout(checkTimer);
    stop();
  };
}
