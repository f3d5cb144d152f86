import {
  type Affine,
  apply,
  type FaceLayout,
  type FilmLayout,
  jointsOf,
  type Seam,
  type Stencil,
  wholeFactor,
} from '../film/index.ts';
import { ACCENT, SOFT, TAPE } from './assemblyGuide.ts';
import type { Paper, Tint } from './paper.ts';

export const SHARED: Tint = [0.8, 0.86, 0.9];
const SHEET_TINTS: readonly Tint[] = [
  [0.96, 0.95, 0.92],
  [0.9, 0.93, 0.95],
];
export const FILM_INK: Tint = [0.35, 0.35, 0.37];
const TAPE_EDGE: Tint = [0.5, 0.38, 0.15];

/** Crossings as a reader meets them: from the upper edge of a cut across, from the tail of one along. With their slants. */
export function orderedCrossings({
  runs,
  crossings,
  slants,
}: Seam): (readonly [number, number, number, number])[] {
  const all = crossings.map(([u, v, length], i) => [u, v, length, slants[i]!] as const);
  return all.sort((a, b) => (runs === 'across' ? b[1] - a[1] : a[0] - b[0]));
}

/** A point a share of the way along a path. */
function alongPath(path: Seam['path'], share: number): readonly [number, number] {
  let total = 0;
  for (let i = 1; i < path.length; i++)
    total += Math.hypot(path[i]![0] - path[i - 1]![0], path[i]![1] - path[i - 1]![1]);
  let left = total * share;
  for (let i = 1; i < path.length; i++) {
    const [p, q] = [path[i - 1]!, path[i]!];
    const run = Math.hypot(q[0] - p[0], q[1] - p[1]);
    if (left <= run && run > 0)
      return [p[0] + ((q[0] - p[0]) * left) / run, p[1] + ((q[1] - p[1]) * left) / run];
    left -= run;
  }
  return path.at(-1)!;
}

/**
 * A film as it will be when joined: its sheets in two tints with their numbers, shared strips, image, marks, cuts and tape
 * points. `small` is its ink, `wholeFactor` times smaller. Gives the height on the page, mm, of the film's lower edge.
 */
export function drawFilm(
  paper: Paper,
  layout: FaceLayout,
  film: FilmLayout,
  at: { readonly left: number; readonly top: number; readonly width: number },
  small: Stencil,
): number {
  const { box } = film;
  const scale = at.width / box.width;
  const high = box.height * scale;
  const bottom = at.top - 6 - high;
  const toPaper: Affine = [scale, 0, 0, scale, at.left - box.x * scale, bottom - box.y * scale];
  const put = (points: readonly (readonly [number, number])[]) =>
    points.map(([u, v]) => apply(toPaper, u, v));
  const fill = (area: { x: number; y: number; width: number; height: number }, tint: Tint) => {
    const [x, y] = apply(toPaper, area.x, area.y);
    paper.rect(x, y, area.width * scale, area.height * scale, tint);
  };
  paper.text(at.left, at.top - 3, 'tail', 9, { tint: SOFT });
  paper.text(at.left + at.width - paper.measure('nose', 9), at.top - 3, 'nose', 9, { tint: SOFT });
  for (const sheet of film.sheets) fill(sheet.window, SHEET_TINTS[(sheet.column + sheet.row) % 2]!);
  const seams = jointsOf(film);
  for (const { seam } of seams) fill(seam.band, SHARED);
  const pixel = ((wholeFactor(layout.dpi) * 25.4) / layout.dpi) * scale;
  const [wide, tall] = [small.width * pixel, small.height * pixel];
  paper.stencil(small, at.left, bottom + high - tall, wide, tall, FILM_INK);
  for (const mark of film.marks) {
    paper.shapes(
      mark.shapes.map((shape) =>
        shape.kind === 'line'
          ? { ...shape, width: 0.1, points: put(shape.points) }
          : { ...shape, points: put(shape.points) },
      ),
    );
  }
  paper.rect(at.left, bottom, at.width, high, null, SOFT, 0.2);
  for (const { seam } of seams) {
    const points = put(seam.path);
    paper.shapes([{ kind: 'line', width: 1.1, points }], [1, 1, 1]);
    paper.shapes([{ kind: 'line', width: 0.45, points }], ACCENT);
    for (const share of [0.14, 0.5, 0.86]) {
      const [x, y] = apply(toPaper, ...alongPath(seam.path, share));
      const [a, b] = seam.runs === 'across' ? [5, 2.4] : [2.4, 5];
      paper.rect(x - a / 2, y - b / 2, a, b, TAPE, TAPE_EDGE, 0.15);
    }
  }
  const rows = film.sheets.some((sheet) => sheet.row > 0);
  for (const sheet of film.sheets) {
    const w = sheet.window;
    const [x, middle] = apply(toPaper, w.x + w.width / 2, w.y + w.height / 2);
    const y = rows ? middle - 1.6 : bottom - 6;
    paper.shapes(
      [
        {
          kind: 'line',
          width: 6.4,
          points: [
            [x, y + 1.5],
            [x, y + 1.5],
          ],
        },
      ],
      [0.15, 0.15, 0.16],
    );
    paper.text(x, y, String(sheet.index + 1), 11, { bold: true, tint: [1, 1, 1], middle: true });
  }
  return bottom;
}

/** What the picture's signs mean, on one line. */
export function drawKey(paper: Paper, left: number, y: number, overlap: number): void {
  paper.rect(left, y, 5, 2.4, TAPE, TAPE_EDGE, 0.15);
  paper.text(left + 7, y, 'tape point', 9);
  paper.shapes(
    [
      {
        kind: 'line',
        width: 0.45,
        points: [
          [left + 30, y + 1.1],
          [left + 37, y + 1.1],
        ],
      },
    ],
    ACCENT,
  );
  paper.text(left + 39, y, 'cut', 9);
  paper.rect(left + 52, y - 0.3, 5, 3, SHARED);
  paper.text(left + 59, y, `shared strip, ${overlap} mm`, 9);
}
