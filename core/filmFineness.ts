import { type FineMap, type FinestFeatures, fineMap, finestFeatures } from './press/index.ts';
import type { Mask } from './raster/index.ts';

/** mm: features wider than this are no trouble to any mesh of the table that prints them. Own choice. */
export const FINE = 0.5;

export interface FinenessInput {
  readonly mask: Mask;
  readonly dpi: number;
}
export interface FilmFineness {
  readonly finest: FinestFeatures;
  readonly map: FineMap;
}

/** A film's finest line and gap, and where all that is fine lies; may run on another thread. */
export const filmFineness = ({ mask, dpi }: FinenessInput): FilmFineness => ({
  finest: finestFeatures(mask, dpi, FINE),
  map: fineMap(mask, dpi, FINE),
});
