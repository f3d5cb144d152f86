import type { Face } from '../deck/index.ts';
import type { FilmPoint } from '../units/index.ts';
import type { FilmArt } from './filmArt.ts';
import type { Boxed } from './filmBox.ts';
import { type LabelText, labelStrip } from './labelStrip.ts';
import type { FilmPrinter } from './printer.ts';

export interface LayOutRequest {
  readonly face: Face;
  readonly jobName: string;
  /** In pull order, sharing dpi, box and size. */
  readonly films: readonly FilmArt[];
  /** Truck-hole centres in film space. */
  readonly holes: readonly FilmPoint[];
  readonly printer: FilmPrinter;
  readonly options?: LayOutOptions;
}

export interface LayOutOptions {
  /** Vernier scales at the main marks and in the overlaps; on unless switched off. */
  readonly verniers?: boolean;
  /** Cuts that wind round the art where that crosses less ink; on unless switched off. */
  readonly shapedCuts?: boolean;
  /** Films of one sheet each may lie together on a sheet, with cut lines between; off unless switched on. */
  readonly shareSheets?: boolean;
  /**
   * Where the common marks stand. `deck`: about the art, at mid-wheelbase, with cross-hairs at all truck holes, however
   * far they are. `art`: close about the art, truck holes only where they fall within that. `auto`: `art` where it
   * takes fewer sheets, else `deck`.
   */
  readonly marks?: 'auto' | 'deck' | 'art';
  /**
   * Where the user wants sheets to meet, by ink id: middles of the strips across the deck, film u in mm, tail to nose. Taken as
   * near as the sheets allow; a film whose count of sheets is another finds its own.
   */
  readonly boundaries?: Readonly<Record<string, readonly number[]>>;
}

/** What a film's label strip says; `sheet` is its own number as the strip says it. */
export const labelText = (request: LayOutRequest, film: Boxed, sheet: string): LabelText => ({
  face: request.face,
  jobName: request.jobName,
  film: film.art,
  filmWidth: film.box.width,
  filmHeight: film.box.height,
  sheet,
  mirror: request.printer.mirror,
});

/** A film's label strip; `length` mm is what it may take. */
export const filmLabels = (request: LayOutRequest, film: Boxed, sheet: string, length: number) =>
  labelStrip(labelText(request, film, sheet), length);
