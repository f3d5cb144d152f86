import type { Mask } from '../raster/index.ts';
import type { Box } from '../units/index.ts';

/** One ink's finished film image, before marks and sheets. All films of a face share box, dpi and size. */
export interface FilmArt {
  readonly inkId: string;
  readonly inkName: string;
  /** sRGB, for pictures of the film only; a film itself is black. */
  readonly hex: string;
  /** Counted from 1 on this face. */
  readonly pull: number;
  readonly pulls: number;
  /** Threads per cm. */
  readonly meshPerCm: number;
  /** Screen ruling and angle, for the label; none for line work. */
  readonly screen?: { readonly lpi: number; readonly angleDeg: number };
  /** The whole face; row 0 is the top (largest v). */
  readonly mask: Mask;
  /** Film space mm of the raster; its corners lie on whole pixels at `dpi` counted from the origin. */
  readonly box: Box;
  readonly dpi: number;
}
