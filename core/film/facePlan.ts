import { filmTrouble } from '../sentences/index.ts';
import { done, type Outcome } from '../units/index.ts';
import { assignPages } from './assignPages.ts';
import type { FaceLayout, FilmLayout } from './faceLayout.ts';
import { filmNotes, markNotes, nameNotes, turnNotes } from './faceNotes.ts';
import { layOutFilm } from './layOutFilm.ts';
import type { LayOutOptions, LayOutRequest } from './layOutRequest.ts';
import { placeSeams, wishedSeams } from './planSheets.ts';
import { prepareAll } from './prepareFace.ts';
import type { SeamPlan } from './seam.ts';

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

/**
 * Marks, boxes and sheet counts of all films of one face, and where their sheets meet if the user has no wish. Sheets are
 * fewest over both ways a picture can lie on the sheet, the same way for all films of the face so that a printer's error
 * is common to every pull; then seams lie where straight cuts cross least ink. Refused with a sentence: no films,
 * sheets too small.
 */
export function planFace(request: LayOutRequest): Outcome<FacePlan> {
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
  const all = prepareAll(request);
  const prepared = all.reduce((least, one) => (one.sheets < least.sheets ? one : least));
  const { boxed, plans } = prepared;
  // Wishes do not come in here: a hand that drags a boundary must not turn the sheets under it.
  const best = plans
    .filter((plan) => plan.sheets === prepared.sheets)
    .map((plan) => placeSeams(plan, boxed))
    .sort((a, b) => a.cost - b.cost)[0];
  if (!best) return refuse(request);
  if (best.sheets > MOST_SHEETS * films.length) {
    return filmTrouble.tooManySheets(request.face, best.sheets, printer.sheet.name);
  }
  const notes = [...nameNotes(request), ...markNotes(prepared, all), ...turnNotes(films, best, plans)];
  const { pages, films: places, cutLines } = assignPages(printer, best);
  const kept = boxed.map(() => ({
    columns: '',
    seams: new Map<string, SeamPlan>(),
    laid: null as FilmLayout | null,
  }));
  return done({
    layOut(boundaries) {
      const laid = boxed.map((film, i) => {
        const wished = boundaries?.[film.art.inkId];
        const { columns, rows } = best.seams[i]!;
        const own = { rows, columns: (wished && wishedSeams(film, best, wished)) ?? columns };
        const before = kept[i]!;
        const key = own.columns.join();
        if (before.laid && before.columns === key) return before.laid;
        const seams = new Map<string, SeamPlan>();
        const made = layOutFilm(request, films, film, { ...best, seams: own }, places[i]!, (name, find) => {
          const plan = before.seams.get(name) ?? find();
          seams.set(name, plan);
          return plan;
        });
        kept[i] = { columns: key, seams, laid: made };
        return made;
      });
      return {
        face: request.face,
        dpi: model.dpi,
        printer,
        pages,
        cutLines,
        films: laid,
        notes: [...notes, ...laid.flatMap((film) => filmNotes(film, request.options?.verniers ?? true))],
      };
    },
  });
}
