import type { Mm } from '../units/index.ts';
import type { SheetSize } from './sheetSize.ts';

/** What is known of the film printer. */
export interface FilmPrinter {
  readonly sheet: SheetSize;
  /** mm it can't reach on each edge. */
  readonly margin: Mm;
  /** Printed length over asked length, along the sheet's own x and y. */
  readonly scaleX: number;
  readonly scaleY: number;
  /** Degrees a printed upright leans to the right; 0 when left out. See `calibrate`. */
  readonly skewDeg?: number;
  /** mm neighbouring sheets share. */
  readonly overlap: Mm;
  /** Wrong reading, for who burns with the toner away from the mesh. */
  readonly mirror: boolean;
}
