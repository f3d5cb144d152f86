import type { PxBox } from '../raster/index.ts';
import type { Box, Mm } from '../units/index.ts';
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

/** What the printer reaches of a page, printed mm from its lower left corner: before its error is taken out. */
export function pageArea({ sheet, margin, scaleX, scaleY }: FilmPrinter): Box {
  return {
    x: sheet.width / 2 - (sheet.width / 2 - margin) * scaleX,
    y: sheet.height / 2 - (sheet.height / 2 - margin) * scaleY,
    width: (sheet.width - 2 * margin) * scaleX,
    height: (sheet.height - 2 * margin) * scaleY,
  };
}

/** Printed mm to the page mm to ask for: mirrored about the sheet's middle if films are, then the printer's error taken out. */
export function printedToPage(printer: FilmPrinter): Affine {
  const { mirror, sheet } = printer;
  return compose(undoPrinter(printer), [mirror ? -1 : 1, 0, 0, 1, mirror ? sheet.width : 0, 0]);
}

export interface PagePlace {
  readonly filmToPage: Affine;
  /** Label strip space (see `labelStrip`) to page mm. */
  readonly stripToPage: Affine;
  readonly imageAt: { readonly x: number; readonly y: number };
}

/**
 * Lays a window in its part of the page: label strip along the tail side, the picture beside it, centred across. At scale 1
 * the picture's corner is a whole number of pixels from the page's top left corner, so that renderers copy it bit for
 * bit. The printer's scale and lean are taken out about the sheet's centre (see `undoPrinter`).
 */
export function placeOnPage(
  printer: FilmPrinter,
  dpi: number,
  turn: 0 | 90,
  area: Box,
  strip: Mm,
  windowPx: PxBox,
  window: { readonly x: Mm; readonly y: Mm; readonly width: Mm; readonly height: Mm },
): PagePlace {
  const { sheet, mirror } = printer;
  const scale = dpi / 25.4;
  const [w, h] = [sheet.width as number, sheet.height as number];
  const [winW, winH] = [windowPx.width as number, windowPx.height as number];
  const [imageW, imageH] = turn === 0 ? [winW, winH] : [winH, winW];
  let left =
    turn === 0
      ? Math.ceil((area.x + strip) * scale)
      : Math.round((area.x + area.width / 2) * scale - imageW / 2);
  const top =
    turn === 0
      ? Math.round((h - area.y - area.height / 2) * scale - imageH / 2)
      : Math.floor((h - area.y - strip) * scale) - imageH;
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
  const printed = printedToPage(printer);
  const labels: Affine =
    turn === 0 ? [0, -1, 1, 0, area.x, area.y + area.height] : [1, 0, 0, 1, area.x, area.y];
  return {
    filmToPage: compose(printed, flat),
    stripToPage: compose(printed, labels),
    imageAt: { x: imageX, y: top },
  };
}
