import { crop, type Mask, type PxBox } from '../raster/index.ts';
import type { Px } from '../units/index.ts';
import type { FilmLayout, Seam, SheetLayout } from './faceLayout.ts';
import { pixelsOf } from './inkSearch.ts';
import { mirrored, turnLeft } from './turn.ts';

/** The whole film's box in its raster, beyond which it may reach. */
export const filmBox = ({ offsetPx, widthPx, heightPx }: FilmLayout): PxBox => ({
  x: offsetPx.x,
  y: offsetPx.y,
  width: widthPx,
  height: heightPx,
});

/** The whole film's image before it is cut, exactly its box: row 0 at the top. Marks are not in it. */
export function filmMask(film: FilmLayout): Mask {
  const { offsetPx, widthPx, heightPx } = film;
  return crop(
    film.art.mask,
    offsetPx.x as number,
    offsetPx.y as number,
    widthPx as number,
    heightPx as number,
  );
}

/** What of a film, and of one of its sheets, says what is drawn there: little enough to be sent to another thread. */
export interface SheetPicture {
  readonly film: { readonly art: { readonly mask: Mask } } & Pick<FilmLayout, 'offsetPx'>;
  readonly sheet: Pick<SheetLayout, 'windowPx' | 'turn' | 'mirror'>;
}

/** `film` and `sheet` without what is not needed to draw them. */
export const sheetPicture = (film: FilmLayout, sheet: SheetLayout): SheetPicture => ({
  film: { art: { mask: film.art.mask }, offsetPx: film.offsetPx },
  sheet: { windowPx: sheet.windowPx, turn: sheet.turn, mirror: sheet.mirror },
});

type Make = (width: Px, height: Px) => Mask;

/** One sheet's part of the film, as the film lies. `make` gives masks blank, here and below. */
export function windowMask(film: SheetPicture['film'], sheet: SheetPicture['sheet'], make?: Make): Mask {
  const { x, y, width, height } = sheet.windowPx;
  const [left, top] = [film.offsetPx.x as number, film.offsetPx.y as number];
  return crop(
    film.art.mask,
    left + (x as number),
    top + (y as number),
    width as number,
    height as number,
    make,
  );
}

/** One sheet's image as it lies on its page: turned and, for wrong-reading films, mirrored. */
export function pageMask(film: SheetPicture['film'], sheet: SheetPicture['sheet'], make?: Make): Mask {
  const part = windowMask(film, sheet, make);
  const turned = sheet.turn === 90 ? turnLeft(part, make) : part;
  return sheet.mirror ? mirrored(turned, make) : turned;
}

/** The shared strip of a joint, as the film lies. */
export function seamStrip({ art }: FilmLayout, { band }: Seam): Mask {
  const { x0, y0, x1, y1 } = pixelsOf(art, band);
  return crop(art.mask, x0, y0, x1 - x0, y1 - y0);
}
