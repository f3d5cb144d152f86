import type { Outcome } from '../../core/units/index.ts';
import { afterPaint, type StudioState, sameButBoundaries, tell, useStudio } from '../state/index.ts';
import { back, front, latestWins, type ShowRequest, type ShowResult } from '../workers/index.ts';
import { failed, working } from './working.ts';

/** Toner on film. */
const TONER = '#1c1712';
/** Milliseconds of quiet after which the proof is drawn fine. */
const QUIET = 220;

/** A request and its place among all; a later one makes an earlier one's answer stale. */
interface Turn {
  readonly number: number;
  readonly request: ShowRequest;
}

function requestOf(s: StudioState): ShowRequest | null {
  const veneerId = s.job?.veneers.find((v) => v.id === s.veneerId)?.id ?? s.job?.veneers[0]?.id;
  if (!s.job || veneerId === undefined) return null;
  const onFilms = s.station === 'films' && s.filmView === 'film';
  const film = s.inkId ?? s.job.faces[s.face].inks[0]?.id ?? null;
  return {
    job: s.job,
    face: s.face,
    veneerId,
    colourwayId: s.colourwayId,
    aloneId: onFilms ? film : s.aloneId,
    aloneHex: onFilms ? TONER : null,
    traps: s.station === 'traps',
    pair: s.station === 'traps' ? s.pair : null,
  };
}

/** Does a station just come to show what was already asked for? Spreads are left out of sight where they are not wanted. */
const covers = (asked: ShowRequest, wanted: ShowRequest): boolean =>
  asked.aloneId === wanted.aloneId &&
  asked.aloneHex === wanted.aloneHex &&
  (!wanted.traps || (asked.traps && asked.pair === wanted.pair));

const NEEDED: readonly (keyof StudioState)[] = [
  'job',
  'face',
  'veneerId',
  'colourwayId',
  'aloneId',
  'pictures',
  'dragging',
  'pair',
];

/** Keeps the proof in step with the document: a quick one at once, a fine one when the hand rests. */
export function keepProofs(): () => void {
  let turns = 0;
  let fineShown = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let asked: ShowRequest | null = null;
  let stopWaiting = () => {};

  const put = (made: Outcome<ShowResult>, { request, number }: Turn, fine: boolean) => {
    if (fine && number === turns) working('proof', false);
    if (!made.ok) {
      working('proof', false);
      tell('trouble', made.reason, made.mend);
      return;
    }
    const now = useStudio.getState();
    const late = fine ? number !== turns : number <= fineShown;
    if (late || now.face !== request.face || !now.job) return;
    if (fine) fineShown = number;
    const { spreads, places, veneers, prints, grid, dropped, ...quick } = made.value;
    const before = now.proofs?.face === request.face ? now.proofs : null;
    useStudio.setState({
      proofs: {
        ...quick,
        face: request.face,
        spreads: spreads ?? before?.spreads ?? [],
        pair: spreads ? request.pair : (before?.pair ?? null),
        places: places ?? before?.places ?? [],
        veneers: veneers ? new Map(veneers) : (before?.veneers ?? new Map()),
        grid: grid
          ? new Map(grid.map((g) => [`${g.veneerId} ${g.colourwayId}`, g.picture]))
          : (before?.grid ?? new Map()),
        dropped: dropped ?? before?.dropped ?? [],
        prints: prints ? new Map(prints) : (before?.prints ?? new Map()),
      },
    });
  };
  const quick = latestWins<Turn, Outcome<ShowResult>>(
    ({ request }) => front.quick(request),
    (made, turn) => put(made, turn, false),
    failed('proof'),
  );
  const fine = latestWins<Turn, Outcome<ShowResult>>(
    ({ request }) => back.fine(request),
    (made, turn) => put(made, turn, true),
    failed('proof'),
  );
  const look = (now: StudioState, before: StudioState | null) => {
    const changed = (keys: readonly (keyof StudioState)[]) =>
      before === null || keys.some((k) => now[k] !== before[k]);
    const there = now.station === 'films' || now.station === 'traps';
    const left = before?.station === 'films';
    // Where sheets meet changes no ink; a hand that drags a boundary is not made to wait for a proof.
    const sheetsOnly = now.job && before?.job && sameButBoundaries(now.job, before.job);
    const needed = sheetsOnly ? NEEDED.filter((k) => k !== 'job') : NEEDED;
    const other = changed(needed);
    if (!other && !((there || left) && changed(['station', 'inkId', 'filmView']))) return;
    // While a hand moves art, the board draws the art itself; the proof follows when it lets go.
    const request = now.dragging ? null : requestOf(now);
    if (request && asked && !other && covers(asked, request)) return;
    clearTimeout(timer);
    stopWaiting();
    asked = request;
    if (!request) return;
    const turn = { request, number: ++turns };
    working('proof', true);
    // A station is shown first, and what it wants on the deck is drawn then.
    if (other) quick(turn);
    else stopWaiting = afterPaint(() => quick(turn));
    timer = setTimeout(() => fine(turn), QUIET);
  };
  look(useStudio.getState(), null);
  const stop = useStudio.subscribe(look);
  return () => {
    clearTimeout(timer);
    stopWaiting();
    stop();
  };
}
