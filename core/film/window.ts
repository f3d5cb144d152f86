import type { Mask } from '../raster/index.ts';
import type { FilmLayout, SheetLayout } from './faceLayout.ts';

/** The whole film's image, exactly its box: row 0 at the top. */
export function filmMask(_film: FilmLayout): Mask {
  throw new Error('being written');
}

/** One sheet's image as it lies on the page: cropped, turned, mirrored. */
export function pageMask(_film: FilmLayout, _sheet: SheetLayout): Mask {
  throw new Error('being written');
}
