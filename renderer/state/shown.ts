import type { Face } from '../../core/deck/index.ts';
import type { DroppedPlace } from '../../core/droppedPlaces.ts';
import type { Box } from '../../core/units/index.ts';

/** Two inks that meet, by id: the first spreads under the second. */
export interface InkPair {
  readonly spreads: string;
  readonly under: string;
}

/** Where one ink spreads under others, or the base is drawn in: opaque there, clear elsewhere. `kind` tells hatches apart. */
export interface Spread {
  readonly hex: string;
  readonly kind: number | 'choke';
  readonly picture: ImageBitmap;
}

/** What the window's worker made of the document, at screen resolution. Surface mm; row 0 is the top. */
export interface Proofs {
  readonly face: Face;
  readonly box: Box;
  /** The proof on the chosen veneer in the chosen colourway. */
  readonly proof: ImageBitmap;
  /** One ink alone, when one was asked for. */
  readonly alone: ImageBitmap | null;
  /** Where each trapped print goes beyond its separation; only while traps are looked at. */
  readonly spreads: readonly Spread[];
  /** The pair whose spread alone is shown, and where most of it lies, densest first; null and none: every spread. */
  readonly pair: InkPair | null;
  readonly places: readonly { readonly s: number; readonly t: number }[];
  /** By veneer id: small proofs. */
  readonly veneers: ReadonlyMap<string, ImageBitmap>;
  /** By ink id: each print alone, small, and the area it covers, cm². */
  readonly prints: ReadonlyMap<string, { readonly picture: ImageBitmap; readonly cm2: number }>;
  /** Small proofs of every veneer in every colourway, by `veneer colourway`; empty where there is but one. */
  readonly grid: ReadonlyMap<string, ImageBitmap>;
  /** Specks and holes too small to print, the largest first. */
  readonly dropped: readonly DroppedPlace[];
}

/** Where a flat film can not lie true on a face. */
export interface Heat {
  readonly face: Face;
  readonly box: Box;
  readonly picture: ImageBitmap;
  readonly worstStretch: number;
  /** mm, signed. */
  readonly worstMm: number;
}

/** One sheet's window, with the cuts and crossings where it meets a sheet of a higher number. */
export interface SheetWindow {
  readonly window: Box;
  readonly column: number;
  readonly row: number;
  readonly turned: boolean;
  readonly cuts: readonly (readonly (readonly [number, number])[])[];
  readonly crossings: readonly (readonly [number, number, number])[];
}

/** A film's sheets in one space, mm. */
export interface SheetsShown {
  readonly box: Box;
  readonly sheets: readonly SheetWindow[];
}

/** A film over the deck, in surface mm; `film` is the same as it lies on the light table, in film mm. */
export interface FilmShown extends SheetsShown {
  readonly inkId: string;
  readonly pull: number;
  readonly marks: readonly { readonly kind: string; readonly x: number; readonly y: number }[];
  readonly film: SheetsShown & {
    /** Middles of the strips that columns of sheets share, tail to nose, as the job holds them. */
    readonly boundaries: readonly number[];
  };
}

export interface FilmPlan {
  readonly face: Face;
  readonly films: readonly FilmShown[];
  /** Sheets of transparency all films together take; films may share one. */
  readonly pages: number;
  readonly notes: readonly string[];
  /** The sentence and mend when the films do not fit. */
  readonly trouble: { readonly reason: string; readonly mend: string } | null;
}
