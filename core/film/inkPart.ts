import { crop } from '../raster/index.ts';
import type { Box } from '../units/index.ts';
import type { FilmArt } from './filmArt.ts';
import { pixelsOf } from './inkSearch.ts';

/** A film, or a part of its raster that begins at pixel `at` of it: `box` is the whole raster's all the same. */
export interface InkPart extends Pick<FilmArt, 'mask' | 'box' | 'dpi'> {
  readonly at?: { readonly x: number; readonly y: number };
}

/** The part's first pixel in its film's raster. */
export const startOf = ({ at }: InkPart): { readonly x: number; readonly y: number } => at ?? { x: 0, y: 0 };

/**
 * A box of a film, film space mm, and `aside` mm about it, cut out: rows of a film lie far apart in memory, and a seam looks at the same ink many
 * times.
 */
export function inkPart({ mask, box, dpi }: FilmArt, of: Box, aside: number): InkPart {
  const { x0, y0, x1, y1 } = pixelsOf({ box, dpi }, of);
  const more = Math.ceil((aside * dpi) / 25.4) + 2;
  const at = { x: x0 - more, y: y0 - more };
  return { mask: crop(mask, at.x, at.y, x1 - x0 + 2 * more, y1 - y0 + 2 * more), box, dpi, at };
}
