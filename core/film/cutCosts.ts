import { feelEdges, signedWords } from '../raster/index.ts';
import type { Box } from '../units/index.ts';
import type { FilmArt } from './filmArt.ts';

/** A band as costs a mm: `p` runs along the cut, `q` across the band; `cell` mm a value. */
export interface CutCosts {
  readonly rows: number;
  readonly columns: number;
  readonly cell: number;
  /** rows × columns. */
  readonly cost: Float32Array;
  /** Which way the square to the ink's edge lies at each value, 1 to `FACINGS`; 0 where there is no edge, or no one way. */
  readonly facing?: Uint8Array | undefined;
}

/** mm between the places a path may take across its band; whole cells of the costs. */
export const LANE = 0.25;

/**
 * Price of a mm: clear of ink, blank but close to ink, solid ink, ink at an edge; of each lane of turning; and by how much
 * more, at most, a mm at an edge costs that does not cross it square.
 */
export const CUT_PRICES = { blank: 0.02, close: 4, solid: 10, edge: 12, turn: 0.01, aslant: 0.5 } as const;
/** The same where nothing counts but to miss ink: a blank line is found though it is long, narrow and winding. */
export const MISS_PRICES = { ...CUT_PRICES, close: 0.05, solid: 1000, edge: 1000 } as const;
export type CutPrices = Readonly<Record<keyof typeof CUT_PRICES, number>>;

/** mm that count as close. */
const CLOSE = 0.5;

/** Ways an edge may face, over half a turn: 11¼° apart. */
export const FACINGS = 16;

/** What of a band is ink, what is close to its edge, and which way that faces: what every price is set on. */
export interface CutBand extends Omit<CutCosts, 'cost'> {
  /** 1 where a value has ink. */
  readonly ink: Uint8Array;
  /** 1 where ink begins or ends close by. */
  readonly mixed: Uint8Array;
}

/** A band of one film, at an eighth of a millimetre, or a quarter where pixels are coarser than an eighth. */
export function cutBand(film: FilmArt, band: Box, runs: 'across' | 'along'): CutBand {
  const across = runs === 'across';
  const cell = 25.4 / film.dpi <= LANE / 2 ? LANE / 2 : LANE;
  const rows = Math.max(1, Math.round((across ? band.height : band.width) / cell));
  const columns = Math.max(1, Math.round((across ? band.width : band.height) / cell));
  const ink = new Uint8Array(rows * columns);
  const scale = film.dpi / 25.4;
  const { mask } = film;
  const top = film.box.y + film.box.height;
  const left = (band.x - film.box.x) * scale;
  const above = (top - band.y - band.height) * scale;
  const wide = across ? columns : rows;
  const high = across ? rows : columns;
  const per = cell * scale;
  const words = signedWords(mask);
  const begin = Math.max(0, Math.floor(left));
  const last = Math.min(mask.width as number, Math.ceil(left + wide * per - 1e-6));
  const [firstWord, lastWord] = [begin >> 5, (last - 1) >> 5];
  // By pixel: the cells it begins in or covers, first and one past the last, and the last pixel that lies in these.
  const [firsts, ends, lasts] = [1, 2, 3].map(() => new Int32Array(Math.max(0, last - begin))) as [
    Int32Array,
    Int32Array,
    Int32Array,
  ];
  for (let x = begin; x < last; x++) {
    const first = Math.max(0, Math.floor((x - left) / per + 1e-6));
    const end = Math.max(first + 1, Math.floor((x + 1 - left) / per + 1e-6));
    firsts[x - begin] = first;
    ends[x - begin] = end;
    lasts[x - begin] = Math.max(x, Math.ceil(left + end * per - 1e-6) - 1);
  }
  // All pixel rows of a row of cells together.
  const joined = new Int32Array(mask.stride);
  for (let j = 0; j < high; j++) {
    // Cells from the band's upper edge down; every cell takes in all pixels that lie in it, or the one it lies in.
    const y0 = Math.floor(above + j * per + 1e-6);
    const y1 = Math.max(y0 + 1, Math.floor(above + (j + 1) * per + 1e-6));
    const start = Math.max(0, y0);
    const stop = Math.min(mask.height as number, y1);
    if (start >= stop) continue;
    for (let w = firstWord; w <= lastWord; w++) joined[w] = words[start * mask.stride + w]!;
    for (let y = start + 1; y < stop; y++)
      for (let w = firstWord; w <= lastWord; w++) joined[w]! |= words[y * mask.stride + w]!;
    for (let x = begin; x < last; x++) {
      const word = joined[x >> 5]!;
      if (word === 0) {
        x |= 31;
        continue;
      }
      if (((word >>> (x & 31)) & 1) === 0) continue;
      const end = Math.min(wide, ends[x - begin]!);
      for (let i = firsts[x - begin]!; i < end; i++)
        ink[across ? (high - 1 - j) * columns + i : i * columns + (high - 1 - j)] = 1;
      x = lasts[x - begin]!;
    }
  }
  const reach = Math.max(1, Math.round(CLOSE / cell));
  return { rows, columns, cell, ink, ...feelEdges(ink, rows, columns, reach, FACINGS) };
}

/** What each value of the band costs a knife. */
export function cutCosts(
  { rows, columns, cell, ink, mixed, facing }: CutBand,
  prices: CutPrices = CUT_PRICES,
): CutCosts {
  const cost = new Float32Array(rows * columns);
  const { blank, close, solid, edge } = prices;
  // By whether there is an edge close by and whether there is ink.
  const each = Float32Array.of(blank, close, solid, edge);
  for (let at = 0; at < cost.length; at++) cost[at] = each[2 * ink[at]! + mixed[at]!]!;
  return { rows, columns, cell, cost, facing };
}
