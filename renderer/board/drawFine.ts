import type { FilmMeasure } from '../../core/press/index.ts';
import { hatchTile } from './drawSpreads.ts';
import { inMm, type Pen, stamp } from './pen.ts';

/** Cells a fine place is widened by on each side, so that a hair can be seen on the whole deck. */
const HALO = 3;

interface FinePictures {
  readonly limit: number;
  readonly held: HTMLCanvasElement;
  readonly lost: HTMLCanvasElement;
}
const known = new WeakMap<FilmMeasure, FinePictures>();

/** Where ink or gaps are narrower than the mesh holds, and where they are fine but held. `limit` in hundredths of a mm. */
function pictures(measure: FilmMeasure, limit: number): FinePictures {
  const before = known.get(measure);
  if (before?.limit === limit) return before;
  const { columns, rows, lines, gaps } = measure.fine;
  const sheet = () => {
    const canvas = document.createElement('canvas');
    canvas.width = Math.max(1, columns);
    canvas.height = Math.max(1, rows);
    return canvas;
  };
  const made = { limit, held: sheet(), lost: sheet() };
  const pens = [made.held.getContext('2d')!, made.lost.getContext('2d')!] as const;
  for (let row = 0, i = 0; row < rows; row++)
    for (let column = 0; column < columns; column++, i++) {
      const width = Math.min(lines[i] || 255, gaps[i] || 255);
      if (width === 255) continue;
      pens[width < limit ? 1 : 0].fillRect(column - HALO, row - HALO, 2 * HALO + 1, 2 * HALO + 1);
    }
  known.set(measure, made);
  return made;
}

let layer: HTMLCanvasElement | null = null;

/**
 * The finest lines and gaps of a film over the deck: dots where the mesh holds them, dense strokes where it does not. The
 * two differ by pattern as well as by colour, at the screen's own size however far the board is zoomed.
 */
export function drawFine(pen: Pen, measure: FilmMeasure, finestHeld: number): void {
  if (measure.fine.columns === 0) return;
  const { held, lost } = pictures(measure, Math.round(finestHeld * 100));
  layer ??= document.createElement('canvas');
  for (const [picture, kind, colour] of [
    [held, 4, pen.colours.good],
    [lost, 0, pen.colours.warn],
  ] as const) {
    layer.width = pen.width;
    layer.height = pen.height;
    const ctx = layer.getContext('2d')!;
    inMm({ ...pen, ctx }, (mm) => stamp(mm, picture, measure.fine.box));
    ctx.globalCompositeOperation = 'source-in';
    ctx.fillStyle = ctx.createPattern(hatchTile(kind, colour), 'repeat')!;
    ctx.fillRect(0, 0, pen.width, pen.height);
    pen.ctx.drawImage(layer, 0, 0, pen.width, pen.height);
  }
}
