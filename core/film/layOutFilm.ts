import type { PxBox } from '../raster/index.ts';
import type { Box } from '../units/index.ts';
import type { FilmPages } from './assignPages.ts';
import { boundsOf, overlap } from './bounds.ts';
import type { FilmLayout, SheetLayout } from './faceLayout.ts';
import type { FilmArt } from './filmArt.ts';
import { type Boxed, boxOf } from './filmBox.ts';
import { filmLabels, type LayOutRequest } from './layOutRequest.ts';
import { placeOnPage } from './pagePlace.ts';
import type { FilmSeams, Plan } from './planSheets.ts';
import { planSeam, type SeamPlan } from './seam.ts';
import { place, type Shape } from './shape.ts';

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

/** The part of a film that one of its sheets shows. */
export interface SheetWindow {
  readonly column: number;
  readonly row: number;
  /** Pixels from the film's top left corner. */
  readonly px: PxBox;
  readonly box: Box;
}

/** What each of a film's sheets shows of it, in their order: tail to nose, top row first in each column. */
export function sheetWindows(
  film: Boxed,
  { seams, overlap }: Pick<Plan, 'overlap'> & { readonly seams: FilmSeams },
): SheetWindow[] {
  const across = pieces(seams.columns, film.px.width as number, overlap);
  const down = pieces(seams.rows, film.px.height as number, overlap);
  const windows: SheetWindow[] = [];
  for (const [column, c] of across.entries()) {
    for (const [row, r] of down.entries()) {
      const px = { x: c.from, y: r.from, width: c.length, height: r.length };
      const inRaster = { ...px, x: c.from + (film.px.x as number), y: r.from + (film.px.y as number) };
      windows.push({ column, row, px, box: boxOf(film.art, inRaster) });
    }
  }
  return windows;
}

/** May know a seam by its name, which tells strips of one film apart. */
export type SeamOf = (name: string, find: () => SeamPlan) => SeamPlan;

/** One film's sheets: windows, seams with their marks, page places, everything to draw. */
export function layOutFilm(
  request: LayOutRequest,
  films: readonly FilmArt[],
  film: Boxed,
  plan: Pick<Plan, 'turn' | 'overlap'> & { readonly seams: FilmSeams },
  pages: FilmPages,
  seamOf: SeamOf = (_, find) => find(),
): FilmLayout {
  const { printer } = request;
  const { art } = film;
  const how = { verniers: request.options?.verniers ?? true, shaped: request.options?.shapedCuts ?? true };
  const windows = sheetWindows(film, plan);
  const [columns, rows] = [plan.seams.columns.length + 1, plan.seams.rows.length + 1];
  const marks = film.marks.map(({ shapes }) => ({ shapes, about: boundsOf(shapes) }));
  const taken = marks.flatMap(({ about }) => about ?? []);
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
    const name = [runs, band.x, band.y, band.width, band.height].join(' ');
    const seam = seamOf(name, () => planSeam(art, films, band, runs, taken, how));
    seams[a]!.push({ with: b, band, runs, plan: seam, first: true });
    seams[b]!.push({ with: a, band, runs, plan: seam, first: false });
  };
  for (const [i, { column, row }] of windows.entries()) {
    if (row + 1 < rows) join(i, i + 1, 'along');
    if (column + 1 < columns) join(i, i + rows, 'across');
  }
  const sheets: SheetLayout[] = windows.map(({ column, row, px, box }, i) => {
    const at = placeOnPage(printer, art.dpi, plan.turn, pages.area, pages.strip, px, box);
    const name =
      rows === 1 ? `${i + 1} of ${windows.length}` : `${column + 1}/${row + 1} of ${windows.length}`;
    const length = plan.turn === 0 ? pages.area.height : pages.area.width;
    const strip = filmLabels(request, film, name, length);
    const common = marks.flatMap(({ shapes, about }) => (about && overlap(about, box) ? shapes : []));
    const mine: Shape[] = seams[i]!.flatMap((seam) => (seam.first ? seam.plan.first : seam.plan.second));
    return {
      index: i,
      page: pages.first + i,
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
        crossings: seam.plan.crossings.map(({ x, y, length }) => [x, y, length] as const),
        slants: seam.plan.crossings.map(({ slantDeg }) => slantDeg),
        crossHairs: seam.plan.crossHairs,
        scales: seam.plan.scales,
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
