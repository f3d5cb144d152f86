import { complement, crop, inkedBox, type Mask } from '../raster/index.ts';
import { type Mm, pxToMm, toPx } from '../units/index.ts';
import { type FinestFeatures, thinAtLeast, widthOfPieces } from './finestFeatures.ts';

/** Where ink and gaps are fine, in coarse cells, for a picture: each cell's value is the width there in hundredths of a mm. */
export interface FineMap {
  /** Of the cells, in points of the mask: left, top, and points a cell each way. */
  readonly x: number;
  readonly y: number;
  readonly cellPx: number;
  readonly columns: number;
  readonly rows: number;
  /** Row by row; 0: nothing finer than was looked for. */
  readonly lines: Uint8Array;
  readonly gaps: Uint8Array;
  /** The finest line and gap, as `finestFeatures` finds them. */
  readonly finest: FinestFeatures;
}

/** Points a side of a cell: a byte of a mask's row. */
const CELL = 8;

/**
 * The ladder of widths: at each radius of a whole disc, what it does not reach is 2 · radius points wide or less. Marks the
 * cells, finest first, and gives the finest width.
 */
function climb(mask: Mask, dpi: number, most: Mm, into: Uint8Array, columns: number): Mm | null {
  const last = Math.max(1, Math.ceil((toPx(most, dpi) as number) / 2));
  let finest: Mm | null = null;
  for (let radius = 1; radius <= last; radius++) {
    const width = Math.min(255, Math.round((pxToMm(2 * radius, dpi) as number) * 100));
    const { thin, pieces } = thinAtLeast(mask, radius, dpi);
    if (finest === null && pieces.length > 0) finest = widthOfPieces(mask, dpi, radius, pieces);
    const bytes = new Uint8Array(thin.data.buffer, thin.data.byteOffset, thin.data.byteLength);
    for (const { box } of pieces) {
      const [x, y, w, h] = [box.x, box.y, box.width, box.height].map(Number) as [
        number,
        number,
        number,
        number,
      ];
      const [from, to] = [x >> 3, (x + w - 1) >> 3];
      for (let row = y; row < y + h; row++) {
        const start = row * thin.stride * 4;
        const cells = (row >> 3) * columns;
        for (let k = from; k <= to; k++)
          if (bytes[start + k] !== 0 && into[cells + k] === 0) into[cells + k] = width;
      }
    }
  }
  return finest;
}

/**
 * Every stretch of ink and every gap of a film that is finer than `most` mm, with its local thickness (morphological opening
 * by whole discs, at the film's own resolution), laid out in cells of eight points. Words lie least significant bit first,
 * so that on every machine we run on byte k of a row holds points 8k to 8k + 7.
 */
export function fineMap(mask: Mask, dpi: number, most: Mm): FineMap {
  const box = inkedBox(mask);
  const none = new Uint8Array(0);
  if (!box)
    return {
      x: 0,
      y: 0,
      cellPx: CELL,
      columns: 0,
      rows: 0,
      lines: none,
      gaps: none,
      finest: { line: null, gap: null },
    };
  const margin = 6 * Math.ceil((toPx(most, dpi) as number) / 2);
  const [x, y] = [(box.x as number) - margin, (box.y as number) - margin];
  const part = crop(mask, x, y, (box.width as number) + 2 * margin, (box.height as number) + 2 * margin);
  const columns = Math.ceil((part.width as number) / CELL);
  const rows = Math.ceil((part.height as number) / CELL);
  const lines = new Uint8Array(columns * rows);
  const gaps = new Uint8Array(columns * rows);
  const line = climb(part, dpi, most, lines, columns);
  const gap = climb(complement(part), dpi, most, gaps, columns);
  return { x, y, cellPx: CELL, columns, rows, lines, gaps, finest: { line, gap } };
}
