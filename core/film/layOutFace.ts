import type { Face } from '../deck/index.ts';
import { inkCount, inkedBox, type PxBox } from '../raster/index.ts';
import { type Box, badInput, done, type FilmPoint, type Outcome } from '../units/index.ts';
import { boundsOf } from './bounds.ts';
import type { FaceLayout, FilmLayout, FilmMark, SheetLayout } from './faceLayout.ts';
import type { FilmArt } from './filmArt.ts';
import { type FaceMarks, filmMarks } from './filmMarks.ts';
import { inkCounts } from './inkCounts.ts';
import { type InkProfile, inkProfile } from './inkSearch.ts';
import { labelStrip } from './labelStrip.ts';
import { capacity, placeOnPage } from './pagePlace.ts';
import type { FilmPrinter } from './printer.ts';
import { planSeam, SEAM_MARGIN, type SeamPlan, SLIM_SEAM_MARGIN } from './seam.ts';
import { place, type Shape } from './shape.ts';
import { cheapestSpans, piecesFor } from './sheetSpans.ts';

export interface LayOutRequest {
  readonly face: Face;
  readonly jobName: string;
  /** In pull order, sharing dpi, box and size. */
  readonly films: readonly FilmArt[];
  /** Truck-hole centres in film space. */
  readonly holes: readonly FilmPoint[];
  readonly printer: FilmPrinter;
  readonly options?: LayOutOptions;
}

export interface LayOutOptions {
  /** Vernier scales at the main marks and in the overlaps; on unless switched off. */
  readonly verniers?: boolean;
  /** Cuts that wind round the art where that crosses less ink; on unless switched off. */
  readonly shapedCuts?: boolean;
}

/** mm between the label strip and the picture. */
const STRIP_GAP = 1;
/** A seam through a mark costs as much as one through this many mm of ink. */
const MARK_PRICE: Readonly<Record<FilmMark['kind'], number>> = {
  registration: 150,
  'vernier-along': 40,
  'vernier-across': 40,
  hole: 40,
  nose: 15,
};
/** A cut at the very edge of its strip costs as much as this many mm of ink: the knife wants film on both sides. */
const OFF_CENTRE_PRICE = 3;
/** No one tapes more than this; more means a wrong size somewhere. */
const MOST_SHEETS = 200;

/** One film before its sheets: box in pixels of the art's own raster (it may reach beyond it). */
interface Boxed {
  readonly art: FilmArt;
  readonly marks: readonly FilmMark[];
  readonly px: PxBox;
  readonly box: Box;
  readonly inkedCm2: number;
}

/** What all films of a face share: their marks, and the rows any of them prints in. */
interface FaceCommon {
  readonly marks: readonly FilmMark[];
  readonly y0: number;
  readonly y1: number;
  /** mm kept free beside the art for seam marks. */
  readonly beside: number;
}

function faceCommon(profile: InkProfile, marks: readonly FilmMark[], beside: number): FaceCommon {
  const { right } = profile;
  const y0 = Math.max(
    0,
    right.findIndex((last) => last >= 0),
  );
  const y1 = right.findLastIndex((last) => last >= 0) + 1;
  return { marks, y0, y1, beside };
}

/**
 * The film's box: this ink's own art with room for seam marks beside it, and the face's marks as all films together print
 * them, rounded out to whole pixels.
 */
function boxFilm(art: FilmArt, marks: readonly FilmMark[], common: FaceCommon): Boxed {
  const scale = art.dpi / 25.4;
  const top = art.box.y + art.box.height;
  const own = inkedBox(art.mask);
  let [x0, x1, y0, y1] = [Infinity, -Infinity, Infinity, -Infinity];
  if (own) [x0, x1, y0, y1] = [own.x, own.x + own.width, own.y, own.y + own.height];
  if (common.y1 > common.y0) {
    // Seam marks stand beside the art of all films, or they would print among another ink's.
    const beside = Math.ceil(common.beside * scale);
    y0 = Math.min(y0, common.y0 - beside);
    y1 = Math.max(y1, common.y1 + beside);
  }
  for (const mark of common.marks) {
    const box = boundsOf(mark.shapes);
    if (!box) continue;
    x0 = Math.min(x0, Math.floor((box.x - art.box.x) * scale) - 1);
    x1 = Math.max(x1, Math.ceil((box.x + box.width - art.box.x) * scale) + 1);
    y0 = Math.min(y0, Math.floor((top - box.y - box.height) * scale) - 1);
    y1 = Math.max(y1, Math.ceil((top - box.y) * scale) + 1);
  }
  const px = { x: x0, y: y0, width: x1 - x0, height: y1 - y0 };
  return { art, marks, px, box: boxOf(art, px), inkedCm2: inkCount(art.mask) / scale / scale / 100 };
}

/** A box of pixels of the art's raster in film space mm. */
function boxOf(art: FilmArt, px: PxBox): Box {
  const scale = art.dpi / 25.4;
  const [x, y, width, height] = [px.x as number, px.y as number, px.width as number, px.height as number];
  return {
    x: art.box.x + x / scale,
    y: art.box.y + art.box.height - (y + height) / scale,
    width: width / scale,
    height: height / scale,
  };
}

/** Price of a shared strip by where it starts, in mm of ink its best straight cut crosses, and marks it would part. */
function seamPrice(film: Boxed, of: 'columns' | 'rows', overlapPx: number): (start: number) => number {
  const { art, px } = film;
  const scale = art.dpi / 25.4;
  const counts = inkCounts(art.mask, of, Math.max(1, Math.round(scale / 4)));
  const from = (of === 'columns' ? px.x : px.y) as number;
  const length = (of === 'columns' ? px.width : px.height) as number;
  const bin = Math.max(1, Math.round(scale / 2));
  const bins = new Float64Array(Math.ceil(length / bin));
  for (let i = 0; i < length; i++) {
    const ink = counts[from + i] ?? 0;
    const b = Math.floor(i / bin);
    if (ink > bins[b]!) bins[b] = ink;
  }
  const top = art.box.y + art.box.height;
  const marks = film.marks.flatMap((mark) => {
    const box = boundsOf(mark.shapes);
    if (!box) return [];
    const first = (of === 'columns' ? box.x - art.box.x : top - box.y - box.height) * scale - from;
    const last = first + (of === 'columns' ? box.width : box.height) * scale;
    return [{ price: MARK_PRICE[mark.kind], first, last }];
  });
  return (start) => {
    const keep = overlapPx / 10;
    const b0 = Math.floor((start + keep) / bin);
    const b1 = Math.max(b0 + 1, Math.floor((start + overlapPx - keep) / bin));
    let least = Infinity;
    const middle = (b0 + b1 - 1) / 2;
    for (let b = b0; b < b1; b++) {
      const off = (OFF_CENTRE_PRICE * Math.abs(b - middle)) / Math.max(1, b1 - b0);
      least = Math.min(least, (bins[b] ?? 0) / scale + off);
    }
    let price = Number.isFinite(least) ? least : 0;
    for (const mark of marks) {
      if (mark.first < start + overlapPx && mark.last > start) price += mark.price;
    }
    return price;
  };
}

interface Plan {
  readonly turn: 0 | 90;
  readonly strip: number;
  readonly counts: readonly { readonly columns: number; readonly rows: number }[];
  readonly sheets: number;
  /** Capacity and overlap in whole pixels. */
  readonly along: number;
  readonly across: number;
  readonly overlap: number;
}

/** How many sheets every film takes with pictures turned so; null where a sheet can't hold strip and overlap. */
function planTurn(request: LayOutRequest, films: readonly Boxed[], turn: 0 | 90): Plan | null {
  const { printer } = request;
  const scale = films[0]!.art.dpi / 25.4;
  const whole = capacity(printer, turn, 0);
  if (whole.across < 40) return null;
  let strip = 0;
  for (const film of films) strip = Math.max(strip, labels(request, film, '88/8 of 88', whole.across).depth);
  strip += STRIP_GAP;
  const room = capacity(printer, turn, strip);
  // Two pixels spare for rounding to whole ones.
  const along = Math.floor(room.along * scale) - 2;
  const across = Math.floor(room.across * scale) - 2;
  const overlap = Math.round(printer.overlap * scale);
  if (along < 10 * scale || across < 10 * scale) return null;
  const counts = films.map(({ px }) => ({
    columns: piecesFor(px.width as number, along, overlap),
    rows: piecesFor(px.height as number, across, overlap),
  }));
  const sheets = counts.reduce((sum, { columns, rows }) => sum + columns * rows, 0);
  return Number.isFinite(sheets) ? { turn, strip, counts, sheets, along, across, overlap } : null;
}

const labels = (request: LayOutRequest, film: Boxed, sheet: string, length: number) =>
  labelStrip(
    {
      face: request.face,
      jobName: request.jobName,
      film: film.art,
      filmWidth: film.box.width,
      filmHeight: film.box.height,
      sheet,
      mirror: request.printer.mirror,
    },
    length,
  );

interface Placed extends Plan {
  readonly seams: readonly { readonly columns: readonly number[]; readonly rows: readonly number[] }[];
  readonly cost: number;
}

/** Where the seams of every film lie. */
function placeSeams(plan: Plan, films: readonly Boxed[]): Placed {
  let cost = 0;
  const seams = films.map((film) => {
    const grid = Math.max(1, Math.round(film.art.dpi / 25.4));
    const spans = (of: 'columns' | 'rows', length: number, room: number) => {
      if (length <= room) return [];
      const found = cheapestSpans(length, room, plan.overlap, grid, seamPrice(film, of, plan.overlap));
      cost += found.cost;
      return found.seams;
    };
    return {
      columns: spans('columns', film.px.width as number, plan.along),
      rows: spans('rows', film.px.height as number, plan.across),
    };
  });
  return { ...plan, seams, cost };
}

/** Pieces along one axis: first pixel and length of each. */
function pieces(
  seams: readonly number[],
  length: number,
  overlap: number,
): { from: number; length: number }[] {
  return Array.from({ length: seams.length + 1 }, (_, i) => {
    const from = i === 0 ? 0 : seams[i - 1]!;
    const to = i === seams.length ? length : seams[i]! + overlap;
    return { from, length: to - from };
  });
}

/** One film's sheets: windows, seams with their marks, page places, everything to draw. */
function layOutFilm(
  request: LayOutRequest,
  films: readonly FilmArt[],
  film: Boxed,
  plan: Placed,
  index: number,
): FilmLayout {
  const { printer } = request;
  const { art } = film;
  const how = { verniers: request.options?.verniers ?? true, shaped: request.options?.shapedCuts ?? true };
  const { columns, rows } = plan.seams[index]!;
  const across = pieces(columns, film.px.width as number, plan.overlap);
  const down = pieces(rows, film.px.height as number, plan.overlap);
  const count = across.length * down.length;
  const windows: { column: number; row: number; px: PxBox; box: Box }[] = [];
  for (const [column, c] of across.entries()) {
    for (const [row, r] of down.entries()) {
      const px = { x: c.from, y: r.from, width: c.length, height: r.length };
      const inRaster = { ...px, x: c.from + (film.px.x as number), y: r.from + (film.px.y as number) };
      windows.push({ column, row, px, box: boxOf(art, inRaster) });
    }
  }
  const taken = film.marks.flatMap((mark) => boundsOf(mark.shapes) ?? []);
  const seams: { with: number; band: Box; runs: 'across' | 'along'; plan: SeamPlan; first: boolean }[][] =
    windows.map(() => []);
  const join = (a: number, b: number, runs: 'across' | 'along') => {
    const [p, q] = [windows[a]!.box, windows[b]!.box];
    const x = Math.max(p.x, q.x);
    const y = Math.max(p.y, q.y);
    const band = {
      x,
      y,
      width: Math.min(p.x + p.width, q.x + q.width) - x,
      height: Math.min(p.y + p.height, q.y + q.height) - y,
    };
    const seam = planSeam(art, films, band, runs, taken, how);
    seams[a]!.push({ with: b, band, runs, plan: seam, first: true });
    seams[b]!.push({ with: a, band, runs, plan: seam, first: false });
  };
  for (const [i, { column, row }] of windows.entries()) {
    if (row + 1 < down.length) join(i, i + 1, 'along');
    if (column + 1 < across.length) join(i, i + down.length, 'across');
  }
  const common = film.marks.flatMap((mark) => mark.shapes);
  const sheets: SheetLayout[] = windows.map(({ column, row, px, box }, i) => {
    const at = placeOnPage(printer, art.dpi, plan.turn, plan.strip, px, box);
    const name = down.length === 1 ? `${i + 1} of ${count}` : `${column + 1}/${row + 1} of ${count}`;
    const strip = labels(request, film, name, capacity(printer, plan.turn, 0).across);
    const mine: Shape[] = seams[i]!.flatMap((seam) => (seam.first ? seam.plan.first : seam.plan.second));
    return {
      index: i,
      column,
      row,
      window: box,
      windowPx: px,
      filmToPage: at.filmToPage,
      turn: plan.turn,
      mirror: printer.mirror,
      imageAt: at.imageAt,
      seams: seams[i]!.map((seam) => ({
        with: seam.with,
        band: seam.band,
        runs: seam.runs,
        path: seam.plan.path,
        crossings: seam.plan.crossings,
        crossHairs: seam.plan.crossHairs,
      })),
      marks: place([...common, ...mine], at.filmToPage),
      labels: place(strip.shapes, at.stripToPage),
    };
  });
  return {
    art,
    box: film.box,
    widthPx: film.px.width,
    heightPx: film.px.height,
    offsetPx: { x: film.px.x, y: film.px.y },
    marks: film.marks,
    sheets,
    inkedCm2: film.inkedCm2,
  };
}

interface Prepared {
  readonly marks: FaceMarks;
  readonly boxed: readonly Boxed[];
  readonly plans: readonly Plan[];
}

/** Marks, boxes and sheet counts of a face, with full or slim side marks. */
function prepare(request: LayOutRequest, profile: InkProfile, sides: 'full' | 'slim'): Prepared {
  const { films, holes } = request;
  const marks = filmMarks(films, holes, { verniers: request.options?.verniers ?? true, sides, profile });
  const common = faceCommon(profile, marks.byFilm.flat(), sides === 'full' ? SEAM_MARGIN : SLIM_SEAM_MARGIN);
  const boxed = films.map((film, i) => boxFilm(film, marks.byFilm[i]!, common));
  const plans = ([0, 90] as const).flatMap((turn) => planTurn(request, boxed, turn) ?? []);
  return { marks, boxed, plans };
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
  const profile = inkProfile(films.map((film) => film.mask));
  const full = prepare(request, profile, 'full');
  const slim = prepare(request, profile, 'slim');
  const least = (one: Prepared) => Math.min(...one.plans.map((plan) => plan.sheets));
  const prepared = least(slim) < least(full) ? slim : full;
  const { marks, boxed, plans } = prepared;
  const fewest = least(prepared);
  const best = plans
    .filter((plan) => plan.sheets === fewest)
    .map((plan) => placeSeams(plan, boxed))
    .sort((a, b) => a.cost - b.cost)[0];
  if (!best) return refuse(request);
  if (best.sheets > MOST_SHEETS * films.length) {
    return badInput(
      `The ${request.face} would need ${best.sheets} sheets of ${printer.sheet.name}.`,
      'Choose a larger sheet, and check the size of the deck and the art.',
    );
  }
  const notes = [...marks.notes];
  if (prepared === slim) {
    const saved = Number.isFinite(least(full))
      ? ` saves ${least(full) - fewest} sheets`
      : ' lets the film fit';
    notes.push(`Side marks are set small, which${saved}; vernier scales stand at nose and tail only.`);
  }
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
  const laid = boxed.map((film, i) => layOutFilm(request, films, film, best, i));
  for (const film of laid) {
    if (film.inkedCm2 === 0)
      notes.push(`${film.art.inkName} has nothing to print; its film carries only marks.`);
    let [crossed, length] = [0, 0];
    let few = 0;
    for (const sheet of film.sheets) {
      for (const seam of sheet.seams) {
        if (seam.with < sheet.index) continue;
        crossed += seam.crossings.length;
        for (const crossing of seam.crossings) length += crossing[2];
        if (seam.crossHairs.length < 4) few++;
      }
    }
    if (crossed > 0) {
      notes.push(
        `${film.art.inkName}: the cuts cross ink ${crossed === 1 ? 'once' : `${crossed} times`}, ${length.toFixed(1)} mm in all; touch up with opaque ink.`,
      );
    }
    if (few > 0)
      notes.push(
        `${film.art.inkName}: ${few} of its overlaps have too little blank film for four cross-hairs.`,
      );
  }
  return done({ face: request.face, dpi: model.dpi, printer, strip: best.strip, films: laid, notes });
}
