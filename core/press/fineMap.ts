import { complement, crop, inkedBox, type Mask } from '../raster/index.ts';
import { type Mm, pxToMm, toPx } from '../units/index.ts';
import { thinAtLeast } from './finestFeatures.ts';

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
}

/** Points a side of a cell: a byte of a mask's row. */
const CELL = 8;

/** The ladder of widths: at each radius of a whole disc, what it does not reach is 2 · radius points wide or less. */
function climb(mask: Mask, dpi: number, most: Mm, shown: Mask, into: Uint8Array, columns: number): void {
  const last = Math.ceil((toPx(most, dpi) as number) / 2);
  for (let radius = 1; radius <= last; radius++) {
    const width = Math.min(255, Math.round((pxToMm(2 * radius, dpi) as number) * 100));
    const { thin, pieces } = thinAtLeast(mask, radius, dpi);
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
        if (row >= (shown.height as number)) break;
        const start = row * thin.stride * 4;
        const cells = (row >> 3) * columns;
        for (let k = from; k <= to; k++)
          if (bytes[start + k] !== 0 && into[cells + k] === 0) into[cells + k] = width;
      }
    }
  }
}

/**
 * Every stretch of ink and every gap of a film that is finer than `most` mm, with its local thickness (morphological opening
 * by whole discs, at the film's own resolution), laid out in cells of eight points. Words lie least significant bit first,
 * so that on every machine we run on byte k of a row holds points 8k to 8k + 7.
 */
export function fineMap(mask: Mask, dpi: number, most: Mm): FineMap {
  const box = inkedBox(mask);
  if (!box)
    return {
      x: 0,
      y: 0,
      cellPx: CELL,
      columns: 0,
      rows: 0,
      lines: new Uint8Array(0),
      gaps: new Uint8Array(0),
    };
  const margin = 6 * Math.ceil((toPx(most, dpi) as number) / 2);
  const [x, y] = [(box.x as number) - margin, (box.y as number) - margin];
  const part = crop(mask, x, y, (box.width as number) + 2 * margin, (box.height as number) + 2 * margin);
  const columns = Math.ceil((part.width as number) / CELL);
  const rows = Math.ceil((part.height as number) / CELL);
  const lines = new Uint8Array(columns * rows);
  const gaps = new Uint8Array(columns * rows);
  climb(part, dpi, most, part, lines, columns);
  climb(complement(part), dpi, most, part, gaps, columns);
  return { x, y, cellPx: CELL, columns, rows, lines, gaps };
}
