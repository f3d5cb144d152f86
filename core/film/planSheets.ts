import type { Box } from '../units/index.ts';
import { boundsOf } from './bounds.ts';
import type { FilmMark } from './faceLayout.ts';
import type { Boxed, OwnInk } from './filmBox.ts';
import { labelDepth, SHORTEST_STRIP } from './labelStrip.ts';
import { type LayOutRequest, labelText } from './layOutRequest.ts';
import { type Packing, packSheets } from './packSheets.ts';
import { capacity } from './pagePlace.ts';
import { cheapestSpans, piecesFor } from './sheetSpans.ts';

/** mm between the label strip and the picture. */
const STRIP_GAP = 1;
/** mm between films that share a sheet; the cut runs in its middle. */
export const SHARE_GAP = 4;
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

/** Films of one sheet each that share pages: which films, how they lie, and each one's label strip. mm. */
export interface SharedPages {
  /** Indices into the face's films. */
  readonly films: readonly number[];
  readonly strips: readonly number[];
  readonly sizes: readonly { readonly width: number; readonly height: number }[];
  readonly packing: Packing;
}

export interface Plan {
  readonly turn: 0 | 90;
  readonly strip: number;
  readonly counts: readonly { readonly columns: number; readonly rows: number }[];
  /** Pages of transparency all films together take. */
  readonly sheets: number;
  /** Capacity and overlap in whole pixels. */
  readonly along: number;
  readonly across: number;
  readonly overlap: number;
  readonly shared: SharedPages | null;
}

/** How the one-sheet films of a face share pages; null where that saves none. */
function sharePages(
  request: LayOutRequest,
  films: readonly Boxed[],
  counts: Plan['counts'],
  turn: 0 | 90,
): SharedPages | null {
  const single = films.flatMap((_, i) => (counts[i]!.columns * counts[i]!.rows === 1 ? [i] : []));
  if (single.length < 2) return null;
  const whole = capacity(request.printer, turn, 0);
  const strips: number[] = [];
  const sizes = single.map((i) => {
    const { box, art } = films[i]!;
    // Two pixels spare for rounding to whole ones.
    const spare = 50.8 / art.dpi;
    const across = Math.min(whole.across, Math.max(box.height + spare, SHORTEST_STRIP));
    const strip = labelDepth(labelText(request, films[i]!, '1 of 1'), across) + STRIP_GAP;
    strips.push(strip);
    const along = box.width + strip + spare;
    return turn === 0 ? { width: along, height: across } : { width: across, height: along };
  });
  const bin =
    turn === 0 ? { width: whole.along, height: whole.across } : { width: whole.across, height: whole.along };
  const packing = packSheets(sizes, bin, SHARE_GAP);
  return packing && packing.pages < single.length ? { films: single, strips, sizes, packing } : null;
}

/** How many sheets every film takes with pictures turned so; null where a sheet can't hold strip and overlap. */
export function planTurn(request: LayOutRequest, films: readonly Boxed[], turn: 0 | 90): Plan | null {
  const { printer } = request;
  const scale = films[0]!.art.dpi / 25.4;
  const whole = capacity(printer, turn, 0);
  if (whole.across < 40) return null;
  let strip = 0;
  for (const film of films)
    strip = Math.max(strip, labelDepth(labelText(request, film, '88/8 of 88'), whole.across));
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
  const shared = request.options?.shareSheets ? sharePages(request, films, counts, turn) : null;
  const saved = shared ? shared.films.length - shared.packing.pages : 0;
  const sheets = counts.reduce((sum, { columns, rows }) => sum + columns * rows, 0) - saved;
  return Number.isFinite(sheets) ? { turn, strip, counts, sheets, along, across, overlap, shared } : null;
}

/**
 * What of a film makes a seam dear one way, from the film's edge on: the mm of ink that the worst straight cut in each bin of pixels meets, and marks, each
 * with its price and the pixels it begins and ends at. Plain lists of numbers: all are gone through for every millimetre, on code still cold.
 */
interface SeamGround {
  /** Pixels a bin. */
  readonly bin: number;
  readonly bins: Float64Array;
  readonly marks: {
    readonly prices: Float64Array;
    readonly firsts: Float64Array;
    readonly lasts: Float64Array;
  };
}

function seamGround(
  film: Boxed,
  { survey }: OwnInk,
  marks: readonly { readonly kind: FilmMark['kind']; readonly box: Box }[],
  of: 'columns' | 'rows',
): SeamGround {
  const { art, px } = film;
  const scale = art.dpi / 25.4;
  const counts = survey[of];
  const from = (of === 'columns' ? px.x : px.y) as number;
  const length = (of === 'columns' ? px.width : px.height) as number;
  const bin = Math.max(1, Math.round(scale / 2));
  const bins = new Float64Array(Math.ceil(length / bin));
  for (let b = 0; b < bins.length; b++) {
    // The film may reach beyond its raster, where there is no ink.
    const end = Math.min(from + Math.min(length, (b + 1) * bin), counts.length);
    let most = 0;
    for (let i = Math.max(0, from + b * bin); i < end; i++) if (counts[i]! > most) most = counts[i]!;
    bins[b] = most / scale;
  }
  const top = art.box.y + art.box.height;
  const list = () => new Float64Array(marks.length);
  const [prices, firsts, lasts] = [list(), list(), list()];
  for (const [i, { kind, box }] of marks.entries()) {
    prices[i] = MARK_PRICE[kind];
    firsts[i] = (of === 'columns' ? box.x - art.box.x : top - box.y - box.height) * scale - from;
    lasts[i] = firsts[i]! + (of === 'columns' ? box.width : box.height) * scale;
  }
  return { bin, bins, marks: { prices, firsts, lasts } };
}

/** Price of a shared strip by where it starts, in mm of ink its best straight cut crosses, and marks it would part. */
function seamPrice({ bin, bins, marks }: SeamGround, overlapPx: number): (start: number) => number {
  const { prices, firsts, lasts } = marks;
  return (start) => {
    const keep = overlapPx / 10;
    const b0 = Math.floor((start + keep) / bin);
    const b1 = Math.max(b0 + 1, Math.floor((start + overlapPx - keep) / bin));
    let least = Infinity;
    const middle = (b0 + b1 - 1) / 2;
    for (let b = b0; b < b1; b++) {
      const off = (OFF_CENTRE_PRICE * Math.abs(b - middle)) / (b1 - b0);
      const cut = (b < bins.length ? bins[b]! : 0) + off;
      if (cut < least) least = cut;
    }
    let price = Number.isFinite(least) ? least : 0;
    const end = start + overlapPx;
    for (let i = 0; i < prices.length; i++) if (firsts[i]! < end && lasts[i]! > start) price += prices[i]!;
    return price;
  };
}

/** Where one film's sheets begin to overlap: pixels from the film's top left corner. */
export interface FilmSeams {
  readonly columns: readonly number[];
  readonly rows: readonly number[];
}

/** One film's cheapest seams and what they cost: its columns' and its rows' strips, where it has any. */
export interface PricedSeams {
  readonly seams: FilmSeams;
  readonly costs: readonly number[];
}

export interface Placed extends Plan {
  readonly seams: readonly FilmSeams[];
  readonly cost: number;
}

/** The user's strips, each moved no further than the sheets demand; null where they are not as many as the film has. */
export function wishedSeams(film: Boxed, plan: Plan, wished: readonly number[]): number[] | null {
  const { along, overlap } = plan;
  const length = film.px.width as number;
  const count = piecesFor(length, along, overlap) - 1;
  if (wished.length !== count || count === 0 || !wished.every(Number.isFinite)) return null;
  const scale = film.art.dpi / 25.4;
  const seams: number[] = [];
  const ordered = [...wished].sort((a, b) => a - b);
  for (const [i, u] of ordered.entries()) {
    const left = count - 1 - i;
    const before = seams[i - 1];
    // No strip touches its neighbour, no piece is longer than a sheet, and what follows still fits.
    const least = Math.max(
      before === undefined ? 0 : before + overlap,
      length - along - left * (along - overlap),
    );
    const most = Math.min((before ?? 0) + along - overlap, length - overlap - left * overlap);
    const start = Math.round((u - film.box.x) * scale - overlap / 2);
    seams.push(Math.max(least, Math.min(most, start)));
  }
  return seams;
}

/** Where the seams of one film cost least, by each of the plans; `ink` is its own. */
export function filmSeams(
  plans: readonly Pick<Plan, 'along' | 'across' | 'overlap'>[],
  film: Boxed,
  ink: OwnInk,
): PricedSeams[] {
  const scale = film.art.dpi / 25.4;
  const grid = Math.max(1, Math.round(scale));
  const marks = film.marks.flatMap(({ kind, shapes }) => {
    const box = boundsOf(shapes);
    return box ? [{ kind, box }] : [];
  });
  const grounds: { columns?: SeamGround; rows?: SeamGround } = {};
  return plans.map(({ along, across, overlap }) => {
    const costs: number[] = [];
    const spans = (of: 'columns' | 'rows', length: number, room: number) => {
      if (length <= room) return [];
      grounds[of] ??= seamGround(film, ink, marks, of);
      const found = cheapestSpans(length, room, overlap, grid, seamPrice(grounds[of], overlap));
      costs.push(found.cost);
      return found.seams;
    };
    const columns = spans('columns', film.px.width as number, along);
    return { seams: { columns, rows: spans('rows', film.px.height as number, across) }, costs };
  });
}

/** The plan with the seams of all its films. */
export function placeSeams(plan: Plan, films: readonly PricedSeams[]): Placed {
  let cost = 0;
  for (const { costs } of films) for (const one of costs) cost += one;
  return { ...plan, seams: films.map(({ seams }) => seams), cost };
}
