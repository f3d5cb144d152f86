import type { FilmMark } from './faceLayout.ts';
import type { FilmArt } from './filmArt.ts';
import { type Affine, apply, line, place, ringLine, type Shape } from './shape.ts';
import { VERNIER_DEPTH, VERNIER_LENGTH, vernierNumber, vernierScale } from './vernier.ts';

/** How much room a main mark takes, mm: depth of its strip, clear film between it and the nearest art, ring and arm. */
export interface MarkSize {
  readonly depth: number;
  readonly clearance: number;
  readonly ring: number;
  readonly arm: number;
}
export const FULL_MARK: MarkSize = { depth: 12, clearance: 2.5, ring: 3, arm: 5 };
/**
 * For the sides of a film that would otherwise need wider sheets. A scale along the art's edge fits, 5.2 mm deep; one stood on end is
 * 10 mm deep and does not: what it would read, the scales at nose and tail read.
 */
export const SLIM_MARK: MarkSize = { depth: 5.6, clearance: 1.5, ring: 1.7, arm: 2.7 };
/** Lines of marks, mm: 6 pixels at 600 dpi; a stencil on 77 threads a centimetre still holds it (common practice, no source). */
export const MARK_LINE = 0.25;
const LANE_ALONG = VERNIER_LENGTH + 4.5;
const LANE_ACROSS = VERNIER_DEPTH + 3;
const MARK_HALF = 6.5;
/** More scales than this in a row would run off a deck's end; those of later pulls stand in rows further out. */
const LANES_A_ROW = 6;
/** mm from one row of scales to the next, outwards. */
const ROW = 12;

/** A cross through a ring, about the origin. */
export const registrationShapes = ({ ring, arm }: MarkSize): Shape[] => [
  ringLine(0, 0, ring, MARK_LINE),
  line(MARK_LINE, [-arm, 0], [arm, 0]),
  line(MARK_LINE, [0, -arm], [0, arm]),
];

/** How far a strip reaches from its mark on either side, mm, for a face of `pulls` inks. */
export function groupReach(
  pulls: number,
  verniers: boolean,
): { readonly before: number; readonly after: number } {
  const pairs = verniers ? Math.min(Math.max(0, pulls - 1), LANES_A_ROW) : 0;
  return { before: MARK_HALF + pairs * LANE_ACROSS, after: MARK_HALF + pairs * LANE_ALONG };
}

/**
 * A main mark and its scales as one film prints them. `toFilm` takes the strip's own place (x along the art's edge with
 * the mark at 0, y outwards from 0 to its depth) to film space. Pull 1 prints every fixed scale; pull n the moving
 * scale of its own lane. A slim group has one row of scales along the edge alone.
 */
export function markGroup(
  film: Pick<FilmArt, 'pull' | 'pulls'>,
  toFilm: Affine,
  verniers: boolean,
  size: MarkSize = FULL_MARK,
): readonly FilmMark[] {
  const middle = size.depth / 2;
  const marks: FilmMark[] = [];
  const put = (kind: FilmMark['kind'], x: number, y: number, shapes: readonly Shape[]) => {
    const [u, v] = apply(toFilm, x, y);
    marks.push({ kind, x: u, y: v, shapes: place(shapes, toFilm) });
  };
  put('registration', 0, middle, place(registrationShapes(size), [1, 0, 0, 1, 0, middle]));
  if (!verniers) return marks;
  const slim = size !== FULL_MARK;
  const alongU = Math.abs(toFilm[0]) > 0.5;
  for (let pair = 0; pair < film.pulls - 1; pair++) {
    const mine = film.pull === pair + 2;
    if (slim && pair >= LANES_A_ROW) break;
    const lane = pair % LANES_A_ROW;
    const out = middle + ROW * Math.floor(pair / LANES_A_ROW);
    const scale = (): readonly Shape[] => {
      if (film.pull === 1) return vernierScale('fixed');
      return mine ? [...vernierScale('moving'), ...vernierNumber(film.pull)] : [];
    };
    const x = MARK_HALF + 4.5 + lane * LANE_ALONG;
    put(alongU ? 'vernier-along' : 'vernier-across', x, out, place(scale(), [1, 0, 0, 1, x, out]));
    if (slim) continue;
    // The same scale stood on end: its +x is the strip's outward y.
    const cross = -MARK_HALF - LANE_ACROSS * (lane + 0.5);
    put(
      alongU ? 'vernier-across' : 'vernier-along',
      cross,
      out - 0.5,
      place(scale(), [0, 1, -1, 0, cross, out - 0.5]),
    );
  }
  return marks;
}
