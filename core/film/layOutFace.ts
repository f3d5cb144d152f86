import { badInput, done, type Outcome } from '../units/index.ts';
import { assignPages } from './assignPages.ts';
import type { FaceLayout, FilmLayout } from './faceLayout.ts';
import { type Boxed, boxFilm, faceCommon, type OwnInk, ownInk } from './filmBox.ts';
import { type FaceMarks, filmMarks } from './filmMarks.ts';
import { type InkProfile, inkProfile } from './inkSearch.ts';
import { layOutFilm } from './layOutFilm.ts';
import type { LayOutRequest } from './layOutRequest.ts';
import { type Plan, placeSeams, planTurn } from './planSheets.ts';
import { ASLANT, SEAM_MARGIN, SLIM_SEAM_MARGIN } from './seam.ts';

/** No one tapes more than this; more means a wrong size somewhere. */
const MOST_SHEETS = 200;

interface Prepared {
  readonly about: 'deck' | 'art';
  readonly sides: 'full' | 'slim';
  readonly marks: FaceMarks;
  readonly boxed: readonly Boxed[];
  readonly plans: readonly Plan[];
  /** Fewest pages over the ways a picture can lie; Infinity where none fits. */
  readonly sheets: number;
}

/** Marks, boxes and sheet counts of a face, its marks standing so. */
function prepare(
  request: LayOutRequest,
  profile: InkProfile,
  inks: readonly OwnInk[],
  how: Pick<Prepared, 'about' | 'sides'>,
): Prepared {
  const { films, holes } = request;
  const marks = filmMarks(films, holes, { verniers: request.options?.verniers ?? true, ...how, profile });
  const beside = how.sides === 'full' ? SEAM_MARGIN : SLIM_SEAM_MARGIN;
  const common = faceCommon(profile, marks.byFilm.flat(), beside);
  const boxed = films.map((film, i) => boxFilm(film, inks[i]!, marks.byFilm[i]!, common));
  const plans = ([0, 90] as const).flatMap((turn) => planTurn(request, boxed, turn) ?? []);
  return { ...how, marks, boxed, plans, sheets: Math.min(...plans.map((plan) => plan.sheets)) };
}

/** Every way the marks may stand, the most wanted first. */
function prepareAll(request: LayOutRequest): Prepared[] {
  const { films } = request;
  const profile = inkProfile(films.map((film) => film.mask));
  const inks = films.map(ownInk);
  const wish = request.options?.marks ?? 'auto';
  // Without art there is nothing to stand close about.
  const bare = inks.every((ink) => ink.box === null);
  const abouts = bare ? (['deck'] as const) : wish === 'auto' ? (['deck', 'art'] as const) : [wish];
  return abouts.flatMap((about) =>
    (['full', 'slim'] as const).map((sides) => prepare(request, profile, inks, { about, sides })),
  );
}

/** What the user should know about where the marks stand. */
function markNotes(chosen: Prepared, all: readonly Prepared[]): string[] {
  const notes = [...chosen.marks.notes];
  const saves = (from: Prepared | undefined) => {
    if (!from || !Number.isFinite(from.sheets)) return 'lets the film fit';
    const saved = from.sheets - chosen.sheets;
    return `saves ${saved} ${saved === 1 ? 'sheet' : 'sheets'}`;
  };
  if (chosen.about === 'art') {
    const deck = all.filter((one) => one.about === 'deck').sort((a, b) => a.sheets - b.sheets)[0];
    if (deck) notes.push(`Marks stand close about the art, which ${saves(deck)}.`);
    if (chosen.marks.leftOut > 0) {
      const line = chosen.marks.onCentreline
        ? "which stand on the deck's centreline"
        : "which here stand beside the deck's centreline; films.json says where";
      notes.push(
        `${chosen.marks.leftOut} truck holes lie too far from the art for a cross-hair: line the film up in the jig by the ring marks at its tail and nose ends, ${line}.`,
      );
    }
  }
  if (chosen.sides === 'slim') {
    const full = all.find((one) => one.about === chosen.about && one.sides === 'full');
    notes.push(`Side marks are set small, which ${saves(full)}; vernier scales stand at nose and tail only.`);
  }
  return notes;
}

/** What the user should know about one film's cuts. */
function filmNotes(film: FilmLayout): string[] {
  const notes: string[] = [];
  if (film.inkedCm2 === 0)
    notes.push(`${film.art.inkName} has nothing to print; its film carries only marks.`);
  let [crossed, length, aslant] = [0, 0, 0];
  let few = 0;
  for (const sheet of film.sheets) {
    for (const seam of sheet.seams) {
      if (seam.with < sheet.index) continue;
      crossed += seam.crossings.length;
      for (const crossing of seam.crossings) length += crossing[2];
      aslant += seam.slants.filter((slant) => slant > ASLANT).length;
      if (seam.crossHairs.length < 4) few++;
    }
  }
  if (crossed > 0) {
    notes.push(
      `${film.art.inkName}: the cuts cross ink ${crossed === 1 ? 'once' : `${crossed} times`}, ${length.toFixed(1)} mm in all${aslant > 0 ? `, ${aslant} of them aslant` : ''}; touch up with opaque ink.`,
    );
  }
  if (few > 0)
    notes.push(
      `${film.art.inkName}: ${few} of its overlaps have too little blank film for four cross-hairs.`,
    );
  return notes;
}

function refuse(request: LayOutRequest): Outcome<never> {
  const { sheet, margin, overlap } = request.printer;
  return badInput(
    `A ${sheet.name} sheet of ${sheet.width} × ${sheet.height} mm with margins of ${margin} mm and an overlap of ${overlap} mm leaves too little room for a film and its labels.`,
    'Choose a larger sheet, a smaller margin or a smaller overlap.',
  );
}

/**
 * Marks, sheets, seams and page places of all films of one face. Sheets are fewest over both ways a picture can lie on
 * the sheet, the same way for all films of the face so that a printer's error is common to every pull; then seams lie
 * where straight cuts cross least ink. Refused with a sentence: no films, films of different size, sheets too small.
 */
export function layOutFace(request: LayOutRequest): Outcome<FaceLayout> {
  const { films, printer } = request;
  const model = films[0];
  if (!model) return badInput(`The ${request.face} has no ink to print.`, 'Choose at least one ink for it.');
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
  const best = plans
    .filter((plan) => plan.sheets === prepared.sheets)
    .map((plan) => placeSeams(request, plan, boxed))
    .sort((a, b) => a.cost - b.cost)[0];
  if (!best) return refuse(request);
  if (best.sheets > MOST_SHEETS * films.length) {
    return badInput(
      `The ${request.face} would need ${best.sheets} sheets of ${printer.sheet.name}.`,
      'Choose a larger sheet, and check the size of the deck and the art.',
    );
  }
  const notes = markNotes(prepared, all);
  const other = plans.find((plan) => plan.turn !== best.turn);
  if (other) {
    for (const [i, { columns, rows }] of other.counts.entries()) {
      const mine = best.counts[i]!.columns * best.counts[i]!.rows;
      if (columns * rows < mine) {
        notes.push(
          `${films[i]!.inkName} alone would take ${columns * rows} sheets instead of ${mine} if turned, but then a printer's stretch would no longer be common to all films of the face.`,
        );
      }
    }
  }
  const { pages, films: places, cutLines } = assignPages(printer, best);
  const laid = boxed.map((film, i) => layOutFilm(request, films, film, best, i, places[i]!));
  for (const film of laid) notes.push(...filmNotes(film));
  return done({ face: request.face, dpi: model.dpi, printer, pages, cutLines, films: laid, notes });
}
