import { filmTrouble } from '../sentences/index.ts';
import { done, type Outcome } from '../units/index.ts';
import { assignPages, type FilmPages } from './assignPages.ts';
import type { FaceLayout, FilmLayout, PageLines } from './faceLayout.ts';
import { filmNotes, markNotes, nameNotes, turnNotes } from './faceNotes.ts';
import { type Boxed, type OwnInk, ownInk } from './filmBox.ts';
import { layOutFilm, type SeamOf, sheetWindows } from './layOutFilm.ts';
import type { LayOutOptions, LayOutRequest } from './layOutRequest.ts';
import {
  type FilmSeams,
  filmSeams,
  type Placed,
  type Plan,
  type PricedSeams,
  placeSeams,
  wishedSeams,
} from './planSheets.ts';
import { prepareAll } from './prepareFace.ts';
import type { SeamPlan } from './seam.ts';
import type { SheetPicture } from './window.ts';

/** No one tapes more than this; more means a wrong size somewhere. */
const MOST_SHEETS = 200;

/** A face's marks, boxes and sheets, found once. */
export interface FacePlan {
  /**
   * The films with their sheets meeting where the user wishes. Only what differs from the call before is found anew, so
   * that a boundary may be dragged: a moved boundary costs its own cut.
   */
  layOut(boundaries: LayOutOptions['boundaries']): FaceLayout;
}

function refuse(request: LayOutRequest): Outcome<never> {
  const { sheet, margin, overlap } = request.printer;
  return filmTrouble.noRoomOnSheet(sheet.name, sheet.width, sheet.height, margin, overlap);
}

/** All films of a face on their sheets, but for cuts and what is drawn on them: plain data, so that threads may share the rest. */
export interface FaceSheets {
  readonly boxed: readonly Boxed[];
  readonly plan: Placed;
  readonly places: readonly FilmPages[];
  readonly pages: number;
  readonly cutLines: readonly PageLines[];
  readonly notes: readonly string[];
}

/** A face's marks and boxes, and the ways its sheets may lie: where they meet is each film's own matter. */
export interface FaceBoxes {
  readonly boxed: readonly Boxed[];
  /** Every way the pictures can lie, and those that take fewest sheets. */
  readonly plans: readonly Plan[];
  readonly fewest: readonly Plan[];
  readonly notes: readonly string[];
}

/**
 * Marks, boxes and sheet counts of all films of one face. Sheets are fewest over both ways a picture can lie on the sheet, the same way
 * for all films of the face so that a printer's error is common to every pull. Refused with a sentence: no films, sheets
 * too small. `inks` are the films' own.
 */
export function faceBoxes(request: LayOutRequest, inks: readonly OwnInk[]): Outcome<FaceBoxes> {
  const { films, printer } = request;
  const model = films[0];
  if (!model) return filmTrouble.faceWithoutInk(request.face);
  for (const film of films) {
    if (
      film.dpi !== model.dpi ||
      film.mask.width !== model.mask.width ||
      film.mask.height !== model.mask.height
    ) {
      throw new Error('Films of one face must share resolution and size.');
    }
  }
  const all = prepareAll(request, inks);
  const prepared = all.reduce((least, one) => (one.sheets < least.sheets ? one : least));
  const { boxed, plans } = prepared;
  const fewest = plans.filter((plan) => plan.sheets === prepared.sheets);
  if (fewest.length === 0) return refuse(request);
  if (prepared.sheets > MOST_SHEETS * films.length) {
    return filmTrouble.tooManySheets(request.face, prepared.sheets, printer.sheet.name);
  }
  return done({
    boxed,
    plans,
    fewest,
    notes: [...nameNotes(request), ...markNotes(prepared, all)],
  });
}

/** The face's sheets where seams cost least, if the user has no wish; `seams`: of every film those of each of the `fewest` plans. */
export function joinSheets(
  request: LayOutRequest,
  { boxed, plans, fewest, notes }: FaceBoxes,
  seams: readonly (readonly PricedSeams[])[],
): FaceSheets {
  // Wishes do not come in here: a hand that drags a boundary must not turn the sheets under it.
  const plan = fewest
    .map((one, i) =>
      placeSeams(
        one,
        seams.map((film) => film[i]!),
      ),
    )
    .sort((a, b) => a.cost - b.cost)[0]!;
  const { pages, films: places, cutLines } = assignPages(request.printer, plan);
  return {
    boxed,
    plan,
    places,
    pages,
    cutLines,
    notes: [...notes, ...turnNotes(request.films, plan, plans)],
  };
}

/**
 * Marks, boxes and sheets of all films of one face, and where the sheets meet if the user has no wish: where straight cuts cross
 * least ink. Refused as `faceBoxes` is.
 */
function faceSheets(request: LayOutRequest): Outcome<FaceSheets> {
  const inks = request.films.map(ownInk);
  const found = faceBoxes(request, inks);
  if (!found.ok) return found;
  const { boxed, fewest } = found.value;
  const seams = boxed.map((film, i) => filmSeams(fewest, film, inks[i]!));
  return done(joinSheets(request, found.value, seams));
}

/** Where the sheets of film `i` meet: where the user wishes, if that can be. */
export function seamsOf(
  { boxed, plan }: FaceSheets,
  i: number,
  boundaries: LayOutOptions['boundaries'],
): FilmSeams {
  const film = boxed[i]!;
  const wished = boundaries?.[film.art.inkId];
  const { columns, rows } = plan.seams[i]!;
  return { rows, columns: (wished && wishedSeams(film, plan, wished)) ?? columns };
}

/** One film's share of its face's sheets: no more than laying it out needs, for it is sent to another thread. */
export interface FilmSheets {
  readonly film: Boxed;
  readonly plan: Pick<Plan, 'turn' | 'overlap'> & { readonly seams: FilmSeams };
  readonly pages: FilmPages;
}

/** The sheets of film `i`, meeting where the user wishes. */
export function filmSheets({ boxed, plan, places }: FaceSheets, i: number, seams: FilmSeams): FilmSheets {
  const { turn, overlap } = plan;
  return { film: boxed[i]!, plan: { turn, overlap, seams }, pages: places[i]! };
}

/** What a film's sheets show, in their order: it does not wait for cuts. */
export const sheetPictures = ({ printer }: LayOutRequest, { film, plan }: FilmSheets): SheetPicture[] =>
  sheetWindows(film, plan).map(({ px }) => ({
    film: {
      art: { mask: film.art.mask },
      offsetPx: { x: film.px.x, y: film.px.y },
    },
    sheet: { windowPx: px, turn: plan.turn, mirror: printer.mirror },
  }));

/** A film with its cuts and everything to draw. */
export const layOutOne = (
  request: LayOutRequest,
  { film, plan, pages }: FilmSheets,
  seamOf?: SeamOf,
): FilmLayout => layOutFilm(request, request.films, film, plan, pages, seamOf);

/** The face, all its films laid out. */
export function faceLayout(
  request: LayOutRequest,
  { pages, cutLines, notes }: Pick<FaceSheets, 'pages' | 'cutLines' | 'notes'>,
  films: readonly FilmLayout[],
): FaceLayout {
  const verniers = request.options?.verniers ?? true;
  return {
    face: request.face,
    dpi: request.films[0]!.dpi,
    printer: request.printer,
    pages,
    cutLines,
    films,
    notes: [...notes, ...films.flatMap((film) => filmNotes(film, verniers))],
  };
}

/** `faceSheets`, to be laid out for one wish after another; refused as that is. */
export function planFace(request: LayOutRequest): Outcome<FacePlan> {
  const found = faceSheets(request);
  if (!found.ok) return found;
  const sheets = found.value;
  const kept = sheets.boxed.map(() => ({
    columns: '',
    seams: new Map<string, SeamPlan>(),
    laid: null as FilmLayout | null,
  }));
  return done({
    layOut(boundaries) {
      const laid = sheets.boxed.map((_, i) => {
        const own = seamsOf(sheets, i, boundaries);
        const before = kept[i]!;
        const key = own.columns.join();
        if (before.laid && before.columns === key) return before.laid;
        const seams = new Map<string, SeamPlan>();
        const made = layOutOne(request, filmSheets(sheets, i, own), (name, find) => {
          const plan = before.seams.get(name) ?? find();
          seams.set(name, plan);
          return plan;
        });
        kept[i] = { columns: key, seams, laid: made };
        return made;
      });
      return faceLayout(request, sheets, laid);
    },
  });
}
