import type { Face } from './deck/index.ts';
import { type FaceMasks, faceMasks, type MaskTools } from './faceMasks.ts';
import {
  type FaceBoxes,
  type FaceLayout,
  faceLayout,
  filmSheets,
  type GuidePictures,
  joinSheets,
  type OwnInk,
  type PricedSeams,
  type Stencil,
  type Surveyed,
  seamsOf,
  sheetPictures,
} from './film/index.ts';
import type { Job } from './job/index.ts';
import { layOutRequest } from './layOutRequest.ts';
import { packSheets } from './packSheets.ts';
import type { Mask } from './raster/index.ts';
import type { BoxesInput, LaidFilm, LayOutInput, SeamsInput } from './tasks.ts';
import { type Abort, cancelled, done, type Failure, type Outcome, type Progress } from './units/index.ts';
import { wakeThreads } from './wakeThreads.ts';

export interface LayFacesRequest extends MaskTools {
  readonly job: Job;
  /** Faces with art, in the order their films are wanted. */
  readonly faces: readonly Face[];
  /** Instead of the printer's own. */
  readonly dpi?: number | undefined;
  /** Sheets are packed for films.pdf as well, beside the other work. */
  readonly pack?: boolean;
  /** Besides, what assembly.pdf shows of each film is packed: for who wants that document, too. */
  readonly assembly?: boolean;
}

/** A face's masks in film space, and its films on their sheets: what films, press sheets and measures are made from. */
export interface LaidFace {
  readonly made: FaceMasks;
  readonly laid: FaceLayout;
  /** Its sheets as films.pdf holds them, film by film: pictures, and what is drawn about them. Only where they were asked for. */
  readonly stencils?: readonly Stencil[] | undefined;
  readonly drawn?: readonly Uint8Array[] | undefined;
  /** What assembly.pdf shows of each film; likewise. */
  readonly pictures?: readonly GuidePictures[] | undefined;
}

/** Masks take this share of a face's time, laying out the rest. */
const MASKS = 0.9;

async function layFace(
  request: LayFacesRequest,
  face: Face,
  abort: Abort,
  say: Progress,
): Promise<Outcome<LaidFace>> {
  const { job, workers } = request;
  const progress: Progress = (share, text) => say(MASKS * share, text);
  const { dpi = job.printer.dpi } = request;
  // An ink is surveyed as soon as it is done. Whether that succeeds is seen when it is waited for.
  const surveys = new Map<Mask, Promise<OwnInk>>();
  const printed = (mask: Mask) => {
    const survey = workers.run<Surveyed, OwnInk>('ownInk', { mask, dpi }, abort);
    survey.catch(() => {});
    surveys.set(mask, survey);
  };
  const made = await faceMasks(job, face, dpi, 'film', {
    ...request,
    abort,
    progress,
    printed,
  });
  if (!made.ok) return made;
  say(MASKS, `${face}: laying films on sheets`);
  const asked = layOutRequest(job, made.value);
  if (!asked.ok) return asked;
  const inks = await Promise.all(
    asked.value.films.map(
      ({ mask }) => surveys.get(mask) ?? workers.run<Surveyed, OwnInk>('ownInk', { mask, dpi }, abort),
    ),
  );
  const found = await workers.run<BoxesInput, Outcome<FaceBoxes>>(
    'faceBoxes',
    { request: asked.value, inks },
    abort,
  );
  if (!found.ok) return found;
  const { boxed, fewest } = found.value;
  const plans = fewest.map(({ along, across, overlap }) => ({
    along,
    across,
    overlap,
  }));
  const seams = await Promise.all(
    boxed.map((film, i) => {
      const input = { plans, film, ink: inks[i] as OwnInk };
      return workers.run<SeamsInput, PricedSeams[]>('filmSeams', input, abort);
    }),
  );
  // The sheets are common to all films; the cuts, by far the longer work, are each film's own.
  const joined = joinSheets(asked.value, found.value, seams);
  const { boundaries } = asked.value.options ?? {};
  const sheets = boxed.map((_, i) => filmSheets(joined, i, seamsOf(joined, i, boundaries)));
  const { pack: draw = false, assembly: show = false } = request;
  const laying = sheets.map((film) =>
    workers.run<LayOutInput, LaidFilm>(
      'layOutFilm',
      { request: asked.value, sheets: film, draw, show },
      abort,
    ),
  );
  const pictures = request.pack ? sheets.flatMap((film) => sheetPictures(asked.value, film)) : null;
  const [films, stencils] = await Promise.all([
    Promise.all(laying),
    pictures ? packSheets(pictures, { workers, abort }) : undefined,
  ]);
  say(1, `${face}: laid on sheets`);
  const layouts = films.map(({ film }) => film);
  const drawn = request.pack ? films.flatMap((film) => film.drawn) : undefined;
  const shown = films.flatMap((film) => film.pictures ?? []);
  return done({
    made: made.value,
    laid: faceLayout(asked.value, joined, layouts),
    stencils,
    drawn,
    pictures: show ? shown : undefined,
  });
}

type Tried = PromiseSettledResult<Outcome<LaidFace>>;

/** What went wrong first; a face that was only stopped because another failed does not count. Throws what was thrown. */
function firstFailure(tried: readonly Tried[]): Failure | null {
  let stoppedOnly: Failure | null = null;
  let thrown: { readonly reason: unknown } | null = null;
  for (const one of tried) {
    if (one.status === 'rejected') thrown ??= one;
    else if (!one.value.ok) {
      if (one.value.kind !== 'cancelled') return one.value;
      stoppedOnly ??= one.value;
    }
  }
  if (thrown) throw thrown.reason;
  return stoppedOnly;
}

function laidOf(tried: Tried): LaidFace {
  if (tried.status === 'rejected' || !tried.value.ok) throw new Error('A face that failed has no films.');
  return tried.value.value;
}

/**
 * Job → wrap → coverage → masks → traps → films → sheets, for each face. Faces are worked on side by side: while one drops
 * its specks on one thread, the others have the other face. Stops soon after `abort` says so.
 */
export async function layFaces(request: LayFacesRequest): Promise<Outcome<LaidFace[]>> {
  const { faces, abort } = request;
  const say: Progress = request.progress ?? (() => {});
  wakeThreads(request.workers, abort);
  const shares = faces.map(() => 0);
  const halt = { failed: false };
  const sharedAbort: Abort = {
    get aborted() {
      return halt.failed || (abort?.aborted ?? false);
    },
  };
  const tried = await Promise.allSettled(
    faces.map(async (face, i) => {
      try {
        const laid = await layFace(request, face, sharedAbort, (share, text) => {
          shares[i] = share;
          say(shares.reduce((sum, one) => sum + one, 0) / faces.length, text);
        });
        if (!laid.ok) halt.failed = true;
        return laid;
      } catch (error) {
        halt.failed = true;
        throw error;
      }
    }),
  );
  if (abort?.aborted) return cancelled();
  return firstFailure(tried) ?? done(tried.map(laidOf));
}
