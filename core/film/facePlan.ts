import { filmTrouble } from '../sentences/index.ts';
import { done, type Outcome } from '../units/index.ts';
import { assignPages, type FilmPages } from './assignPages.ts';
import type { FaceLayout, FilmLayout, PageLines } from './faceLayout.ts';
import { filmNotes, markNotes, nameNotes, turnNotes } from './faceNotes.ts';
import { type Boxed, type OwnInk, ownInk } from './filmBox.ts';
import { layOutFilm, type SeamOf, sheetWindows } from './layOutFilm.ts';
import type { LayOutOptions, LayOutRequest } from './layOutRequest.ts';
import { type FilmSeams, type Placed, placeSeams, wishedSeams } from './planSheets.ts';
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

/**
 * Marks, boxes and sheet counts of all films of one face, and where their sheets meet if the user has no wish. Sheets are
 * fewest over both ways a picture can lie on the sheet, the same way for all films of the face so that a printer's error
 * is common to every pull; then seams lie where straight cuts cross least ink. Refused with a sentence: no films,
 * sheets too small. `inks` are the films' own, found by threads.
 */
export function faceSheets(
  request: LayOutRequest,
  inks: readonly OwnInk[] = request.films.map(ownInk),
): Outcome<FaceSheets> {
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
  // Wishes do not come in here: a hand that drags a boundary must not turn the sheets under it.
  const best = plans
    .filter((plan) => plan.sheets === prepared.sheets)
    .map((plan) => placeSeams(plan, boxed, inks))
    .sort((a, b) => a.cost - b.cost)[0];
  if (!best) return refuse(request);
  if (best.sheets > MOST_SHEETS * films.length) {
    return filmTrouble.tooManySheets(request.face, best.sheets, printer.sheet.name);
  }
  const notes = [...nameNotes(request), ...markNotes(prepared, all), ...turnNotes(films, best, plans)];
  const { pages, films: places, cutLines } = assignPages(printer, best);
  return done({ boxed, plan: best, places, pages, cutLines, notes });
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

/** What the sheets of film `i` show, in their order: it does not wait for cuts. */
export function sheetPictures(request: LayOutRequest, sheets: FaceSheets, i: number): SheetPicture[] {
  const film = sheets.boxed[i]!;
  const seams = seamsOf(sheets, i, request.options?.boundaries);
  return sheetWindows(film, { ...sheets.plan, seams }).map(({ px }) => ({
    film: { art: { mask: film.art.mask }, offsetPx: { x: film.px.x, y: film.px.y } },
    sheet: { windowPx: px, turn: sheets.plan.turn, mirror: request.printer.mirror },
  }));
}

/** Film `i` with its cuts and everything to draw. */
export function layOutOne(
  request: LayOutRequest,
  { boxed, plan, places }: Pick<FaceSheets, 'boxed' | 'plan' | 'places'>,
  i: number,
  seams: FilmSeams,
  seamOf?: SeamOf,
): FilmLayout {
  return layOutFilm(request, request.films, boxed[i]!, { ...plan, seams }, places[i]!, seamOf);
}

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
        const made = layOutOne(request, sheets, i, own, (name, find) => {
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
