import { type FineMap, fineMap } from './press/index.ts';
import type { Mask } from './raster/index.ts';

/** mm: features wider than this are no trouble to any mesh of the table that prints them. Own choice. */
export const FINE = 0.5;

export interface FinenessInput {
  readonly mask: Mask;
  readonly dpi: number;
}

/** A film's finest line and gap, and where all that is fine lies; may run on another thread. */
export const filmFineness = ({ mask, dpi }: FinenessInput): FineMap => fineMap(mask, dpi, FINE);
