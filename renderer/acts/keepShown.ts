import type { Face } from '../../core/deck/index.ts';
import type { Job } from '../../core/job/index.ts';
import type { Outcome } from '../../core/units/index.ts';
import { type StudioState, tell, useStudio } from '../state/index.ts';
import {
  back,
  front,
  latestWins,
  type PlannedFilms,
  type ShowRequest,
  type ShowResult,
} from '../workers/index.ts';

/** Dots an inch of what the board shows: a deck is then about 2200 points long, a little more than a window's width. */
export const SHOWN_DPI = 66;

/** Toner on film. */
const TONER = '#1c1712';

const requestOf = (s: StudioState): ShowRequest | null => {
  const veneerId = s.veneerId ?? s.job?.veneers[0]?.id;
  if (!s.job || veneerId === undefined) return null;
  const onFilms = s.station === 'films' && s.filmView === 'film';
  return {
    job: s.job,
    face: s.face,
    dpi: SHOWN_DPI,
    veneerId,
    colourwayId: s.colourwayId,
    aloneId: onFilms ? (s.inkId ?? s.job.faces[s.face].inks[0]?.id ?? null) : s.aloneId,
    aloneHex: onFilms ? TONER : null,
    traps: s.station === 'traps',
    small: true,
  };
};

const working = (name: string, on: boolean) => {
  const rest = useStudio.getState().working.filter((w) => w !== name);
  useStudio.setState({ working: on ? [...rest, name] : rest });
};

function deliver(made: Outcome<ShowResult>, request: ShowRequest): void {
  working('proof', false);
  if (!made.ok) {
    tell('trouble', made.reason, made.mend);
    return;
  }
  const now = useStudio.getState();
  if (now.face !== request.face || !now.job) return;
  const { box, proof, alone, spreads, veneers, prints } = made.value;
  const before = now.proofs?.face === request.face ? now.proofs : null;
  useStudio.setState({
    proofs: {
      face: request.face,
      box,
      proof,
      alone,
      spreads,
      veneers: request.small ? new Map(veneers) : (before?.veneers ?? new Map()),
      prints: request.small ? new Map(prints) : (before?.prints ?? new Map()),
    },
  });
}

/** Keeps proofs, film plans and problems in step with the document. Returns what stops it. */
export function keepShown(): () => void {
  const failed = (what: string) => (error: unknown) => {
    working(what, false);
    console.error(error);
    tell(
      'trouble',
      `The ${what} could not be drawn.`,
      'Undo the last change; if it stays so, save the job and report it.',
    );
  };
  const show = latestWins<ShowRequest, Outcome<ShowResult>>((r) => front.show(r), deliver, failed('proof'));
  const plan = latestWins<{ job: Job; face: Face }, Outcome<PlannedFilms>>(
    ({ job, face }) => back.plan(job, face, SHOWN_DPI),
    (made, { face }) => {
      working('films', false);
      if (made.ok && useStudio.getState().face === face) useStudio.setState({ filmPlan: made.value });
      else if (!made.ok) tell('trouble', made.reason, made.mend);
    },
    failed('films'),
  );
  const heat = latestWins(
    ({ job, face }: { job: Job; face: Face }) => back.misfit(job, face),
    (map) => {
      working('misfit', false);
      if (useStudio.getState().face === map.face) useStudio.setState({ heat: map });
    },
    failed('misfit'),
  );
  let planTimer: ReturnType<typeof setTimeout> | undefined;
  const look = (now: StudioState, before: StudioState | null) => {
    const changed = (...keys: (keyof StudioState)[]) =>
      before === null || keys.some((k) => now[k] !== before[k]);
    if (
      changed('job', 'face', 'veneerId', 'colourwayId', 'aloneId', 'pictures', 'dragging') ||
      (changed('station', 'inkId', 'filmView') && (now.station === 'traps' || now.station === 'films'))
    ) {
      // While a hand moves art, the board draws the art itself; the proof follows when it lets go.
      const request = now.dragging ? null : requestOf(now);
      if (request) {
        if (!now.working.includes('proof')) working('proof', true);
        show(request);
      }
    }
    const heated = now.job?.deck !== before?.job?.deck || changed('face', 'station', 'showHeat');
    const unrolled = now.job?.faces[now.face].development !== before?.job?.faces[now.face].development;
    if (now.station === 'deck' && now.showHeat && (heated || unrolled) && now.job) {
      if (!now.working.includes('misfit')) working('misfit', true);
      heat({ job: now.job, face: now.face });
    }
    if (
      now.station === 'films' &&
      changed('job', 'face', 'station', 'pictures') &&
      now.job &&
      !now.dragging
    ) {
      const { job, face } = now;
      clearTimeout(planTimer);
      planTimer = setTimeout(() => {
        if (!useStudio.getState().working.includes('films')) working('films', true);
        plan({ job, face });
      }, 150);
    }
  };
  look(useStudio.getState(), null);
  const stop = useStudio.subscribe(look);
  return () => {
    clearTimeout(planTimer);
    stop();
  };
}
