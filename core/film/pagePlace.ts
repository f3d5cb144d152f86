import type { PxBox } from '../raster/index.ts';
import type { Mm } from '../units/index.ts';
import { undoPrinter } from './calibration.ts';
import type { FilmPrinter } from './printer.ts';
import { type Affine, compose } from './shape.ts';

/** Film mm that a sheet can show along and across the deck when its picture is turned so. */
export function capacity(
  printer: FilmPrinter,
  turn: 0 | 90,
  strip: Mm,
): { readonly along: Mm; readonly across: Mm } {
  const { sheet, margin, scaleX, scaleY } = printer;
  const x = (sheet.width - 2 * margin) * scaleX;
  const y = (sheet.height - 2 * margin) * scaleY;
  return turn === 0 ? { along: x - strip, across: y } : { along: y - strip, across: x };
}

export interface PagePlace {
  readonly filmToPage: Affine;
  /** Label strip space (see `labelStrip`) to page mm. */
  readonly stripToPage: Affine;
  readonly imageAt: { readonly x: number; readonly y: number };
}

/**
 * Lays a window on its page: label strip along the tail side, the picture beside it, centred across. At printer scale 1
 * the picture's corner is a whole number of pixels from the page's top left corner, so that renderers copy it bit for
 * bit. The printer's scale and lean are taken out about the sheet's centre (see `undoPrinter`).
 */
export function placeOnPage(
  printer: FilmPrinter,
  dpi: number,
  turn: 0 | 90,
  strip: Mm,
  windowPx: PxBox,
  window: { readonly x: Mm; readonly y: Mm; readonly width: Mm; readonly height: Mm },
): PagePlace {
  const { sheet, margin, scaleX, scaleY, mirror } = printer;
  const scale = dpi / 25.4;
  const [w, h] = [sheet.width as number, sheet.height as number];
  const minX = w / 2 - (w / 2 - margin) * scaleX;
  const minY = h / 2 - (h / 2 - margin) * scaleY;
  const [winW, winH] = [windowPx.width as number, windowPx.height as number];
  const [imageW, imageH] = turn === 0 ? [winW, winH] : [winH, winW];
  let left = turn === 0 ? Math.ceil((minX + strip) * scale) : Math.round((w * scale - imageW) / 2);
  const top =
    turn === 0 ? Math.round((h * scale - imageH) / 2) : Math.floor((h - minY - strip) * scale) - imageH;
  let imageX = left;
  if (mirror) {
    imageX = Math.floor(w * scale - left - imageW);
    left = w * scale - imageX - imageW;
  }
  const [leftMm, topMm] = [left / scale, h - top / scale];
  const flat: Affine =
    turn === 0
      ? [1, 0, 0, 1, leftMm - window.x, topMm - (window.y + window.height)]
      : [0, 1, -1, 0, leftMm + window.y + window.height, topMm - (window.x + window.width)];
  // Mirrored about the sheet's middle first, then asked for where the printer will put it right.
  const mirrorPage: Affine = [mirror ? -1 : 1, 0, 0, 1, mirror ? w : 0, 0];
  const printed = compose(undoPrinter(printer), mirrorPage);
  const labels: Affine = turn === 0 ? [0, -1, 1, 0, minX, h - minY] : [1, 0, 0, 1, minX, minY];
  return {
    filmToPage: compose(printed, flat),
    stripToPage: compose(printed, labels),
    imageAt: { x: imageX, y: top },
  };
}
