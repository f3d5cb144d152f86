import { type Mask, signedWords } from '../mask.ts';

/** A coarse grid over a mask, which may reach beyond it. Lengths in pixels, which need not be whole. */
export interface CellGrid {
  /** Where its first column begins and its upper row does, in the raster of which the mask is a part; y down. */
  readonly left: number;
  readonly above: number;
  /** The mask's first pixel in that raster. */
  readonly x: number;
  readonly y: number;
  /** A cell's side. */
  readonly per: number;
  /** Cells a row, and rows. */
  readonly wide: number;
  readonly high: number;
  /** Cells come by rows from the lowest one up; or, `upright`, by columns from the left, each from its lowest cell up. */
  readonly upright: boolean;
}

/** Of the pixels and rows of a mask that lie in a grid: what all cells need to know. */
interface CellSpans {
  /** First column of pixels, in the raster, and of each the cells it begins in or covers, first and one past the last; and the last pixel that lies in these, counted from the first column. */
  readonly begin: number;
  readonly firsts: Int32Array;
  readonly ends: Int32Array;
  readonly lasts: Int32Array;
  /** By row of cells from the top, its rows of pixels in the mask: first and one past the last. */
  readonly starts: Int32Array;
  readonly stops: Int32Array;
}

/** Less than this of a pixel is rounding noise. */
export const NOISE = 1e-6;

/** Columns of the raster that lie in both the grid and the mask: the first, and one past the last. */
export const cellRange = (mask: Mask, { left, per, wide, x }: CellGrid): readonly [number, number] => [
  Math.max(x, Math.floor(left)),
  Math.min(x + mask.width, Math.ceil(left + wide * per - NOISE)),
];

function cellSpans(mask: Mask, grid: CellGrid): CellSpans {
  const { left, above, per, high } = grid;
  const [begin, last] = cellRange(mask, grid);
  const count = Math.max(0, last - begin);
  const firsts = new Int32Array(count);
  const ends = new Int32Array(count);
  const lasts = new Int32Array(count);
  for (let x = begin; x < last; x++) {
    const first = Math.max(0, Math.floor((x - left) / per + NOISE));
    const end = Math.max(first + 1, Math.floor((x + 1 - left) / per + NOISE));
    firsts[x - begin] = first;
    ends[x - begin] = end;
    lasts[x - begin] = Math.max(x, Math.ceil(left + end * per - NOISE) - 1) - begin;
  }
  const starts = new Int32Array(high);
  const stops = new Int32Array(high);
  for (let j = 0; j < high; j++) {
    // Every cell takes in all pixels that lie in it, or the one it lies in.
    const y0 = Math.floor(above + j * per + NOISE);
    const y1 = Math.max(y0 + 1, Math.floor(above + (j + 1) * per + NOISE));
    starts[j] = Math.max(0, y0 - grid.y);
    stops[j] = Math.min(mask.height, y1 - grid.y);
  }
  return { begin, firsts, ends, lasts, starts, stops };
}

/** The readable definition of `inkCells`. */
export function inkCellsPlain(mask: Mask, grid: CellGrid): Uint8Array {
  const { begin, firsts, ends, lasts, starts, stops } = cellSpans(mask, grid);
  const { wide, high, upright } = grid;
  const out = new Uint8Array(wide * high);
  const words = signedWords(mask);
  // All pixel rows of a row of cells together.
  const joined = new Int32Array(mask.stride);
  for (let j = 0; j < high; j++) {
    if (starts[j]! >= stops[j]!) continue;
    joined.fill(0);
    for (let y = starts[j]!; y < stops[j]!; y++)
      for (let w = 0; w < mask.stride; w++) joined[w]! |= words[y * mask.stride + w]!;
    for (let x = 0; x < firsts.length; x++) {
      const pixel = begin + x - grid.x;
      if (((joined[pixel >> 5]! >>> (pixel & 31)) & 1) === 0) continue;
      const end = Math.min(wide, ends[x]!);
      for (let i = firsts[x]!; i < end; i++)
        out[upright ? i * high + (high - 1 - j) : (high - 1 - j) * wide + i] = 1;
      x = lasts[x]!;
    }
  }
  return out;
}
