import type { PxBox } from '../raster/index.ts';
import type { Box } from '../units/index.ts';
import type { FilmPages } from './assignPages.ts';
import { boundsOf } from './bounds.ts';
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

/**
 * One film's sheets: windows, seams with their marks, page places, everything to draw. `seamOf` may know a seam by its
 * name, which tells strips of this film apart.
 */
export function layOutFilm(
  request: LayOutRequest,
  films: readonly FilmArt[],
  film: Boxed,
  plan: Pick<Plan, 'turn' | 'overlap'> & { readonly seams: FilmSeams },
  pages: FilmPages,
  seamOf: (name: string, find: () => SeamPlan) => SeamPlan = (_, find) => find(),
): FilmLayout {
  const { printer } = request;
  const { art } = film;
  const how = { verniers: request.options?.verniers ?? true, shaped: request.options?.shapedCuts ?? true };
  const { columns, rows } = plan.seams;
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
    const name = [runs, band.x, band.y, band.width, band.height].join(' ');
    const seam = seamOf(name, () => planSeam(art, films, band, runs, taken, how));
    seams[a]!.push({ with: b, band, runs, plan: seam, first: true });
    seams[b]!.push({ with: a, band, runs, plan: seam, first: false });
  };
  for (const [i, { column, row }] of windows.entries()) {
    if (row + 1 < down.length) join(i, i + 1, 'along');
    if (column + 1 < across.length) join(i, i + down.length, 'across');
  }
  const common = film.marks.flatMap((mark) => mark.shapes);
  const sheets: SheetLayout[] = windows.map(({ column, row, px, box }, i) => {
    const at = placeOnPage(printer, art.dpi, plan.turn, pages.area, pages.strip, px, box);
    const name = down.length === 1 ? `${i + 1} of ${count}` : `${column + 1}/${row + 1} of ${count}`;
    const length = plan.turn === 0 ? pages.area.height : pages.area.width;
    const strip = filmLabels(request, film, name, length);
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
