import type { Problem } from '../../core/check/index.ts';
import type { Face } from '../../core/deck/index.ts';
import type { Job } from '../../core/job/index.ts';
import type { Outcome } from '../../core/units/index.ts';
import { type StudioState, sameButBoundaries, tell, useStudio } from '../state/index.ts';
import { back, latestWins, moveSheets, type PlannedFilms, planFilms } from '../workers/index.ts';
import { failed, working } from './working.ts';

/** Milliseconds of quiet before sheets are planned anew, and before the whole job is looked over. */
const PLAN_QUIET = 250;
const CHECK_QUIET = 900;

interface Asked {
  readonly job: Job;
  readonly face: Face;
}

/** What films are planned from. */
interface Planned extends Asked {
  readonly pictures: StudioState['pictures'];
}

/** May films planned from the one be laid out for the other, without asking anew what prints where? */
const differByBoundaries = (a: Planned, b: Planned): boolean =>
  a.face === b.face && a.pictures === b.pictures && sameButBoundaries(a.job, b.job);

/** Is art of the job that was opened still being decoded? Films planned meanwhile would fall on too few sheets. */
const loading = (state: StudioState | null): boolean => state?.working.includes('art') ?? false;

/** Keeps film plans, the list of problems and the misfit of the bend in step with the document. */
export function keepPlans(): () => void {
  /** What was asked for last, and what was made last. */
  let planned: Planned | null = null;
  let laid: Planned | null = null;
  const plan = latestWins<Planned, Outcome<PlannedFilms>>(
    (asked) => (laid && differByBoundaries(laid, asked) ? moveSheets : planFilms)(asked.job, asked.face),
    (made, asked) => {
      const { face } = asked;
      laid = made.ok ? asked : null;
      if (asked === planned) working('films', false);
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
  let planTimer: ReturnType<typeof setTimeout> | undefined;
  let checkTimer: ReturnType<typeof setTimeout> | undefined;

  const look = (now: StudioState, before: StudioState | null) => {
    const { job, face, station } = now;
    if (!job || now.dragging) return;
    const changed = (...keys: (keyof StudioState)[]) =>
      before === null || before.dragging || keys.some((k) => now[k] !== before[k]);
    // Where sheets meet is no matter of the check.
    const moved =
      before?.job &&
      !before.dragging &&
      now.pictures === before.pictures &&
      sameButBoundaries(before.job, job);
    if (changed('job', 'pictures') && !moved) {
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
      if (loaded) planned = null;
      const wanted: Planned = { job, face, pictures: now.pictures };
      const like = now.filmPlan && planned && differByBoundaries(planned, wanted);
      if (!like)
        planTimer = setTimeout(() => {
          planned = wanted;
          working('films', true);
          plan(wanted);
        }, PLAN_QUIET);
      else if (planned?.job !== job) {
        // A hand that drags a boundary, or takes that back, sees the new cut at once.
        planned = wanted;
        plan(wanted);
      }
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
