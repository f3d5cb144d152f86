import type { Box } from '../units/index.ts';
import type { PageLines } from './faceLayout.ts';
import { pageArea, printedToPage } from './pagePlace.ts';
import type { Plan } from './planSheets.ts';
import type { FilmPrinter } from './printer.ts';
import { line, place, type Shape } from './shape.ts';

/** Which pages of the face a film takes, and where on them. */
export interface FilmPages {
  /** From 0 in the face; the film's sheets take this and the next ones. */
  readonly first: number;
  /** The part of the page that is the film's, printed mm from the page's lower left corner. */
  readonly area: Box;
  /** mm of its label strip with its gap. */
  readonly strip: number;
}

/** Cut line between films, mm: hairline of two pixels at 600 dpi, in dashes. */
const HAIR = 0.09;
const DASH = 3;

function dashes(from: readonly [number, number], to: readonly [number, number]): Shape[] {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const [dx, dy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const shapes: Shape[] = [];
  for (let at = 0; at < length; at += 2 * DASH) {
    const end = Math.min(length, at + DASH);
    shapes.push(line(HAIR, [from[0] + dx * at, from[1] + dy * at], [from[0] + dx * end, from[1] + dy * end]));
  }
  return shapes;
}

/** Pages of a face in the order of its films; films that share one come together where the first of them stands. */
export function assignPages(
  printer: FilmPrinter,
  plan: Plan,
): { readonly pages: number; readonly films: readonly FilmPages[]; readonly cutLines: readonly PageLines[] } {
  const area = pageArea(printer);
  const { shared } = plan;
  let pages = 0;
  const pageOf = new Map<number, number>();
  const films = plan.counts.map(({ columns, rows }, i): FilmPages => {
    const k = shared ? shared.films.indexOf(i) : -1;
    if (!shared || k < 0) {
      const first = pages;
      pages += columns * rows;
      return { first, area, strip: plan.strip };
    }
    const at = shared.packing.places[k]!;
    let page = pageOf.get(at.page);
    if (page === undefined) {
      page = pages++;
      pageOf.set(at.page, page);
    }
    const { width, height } = shared.sizes[k]!;
    return {
      first: page,
      area: { x: area.x + at.x, y: area.y + at.y, width, height },
      strip: shared.strips[k]!,
    };
  });
  const toPage = printedToPage(printer);
  const cutLines = (shared?.packing.cuts ?? []).map(({ page, from, to }) => ({
    page: pageOf.get(page)!,
    shapes: place(dashes([area.x + from[0], area.y + from[1]], [area.x + to[0], area.y + to[1]]), toPage),
  }));
  return { pages, films, cutLines };
}
