import {
  type FineMap,
  type FinestFeatures,
  fineMap,
  finestFeatures,
  type ThinPlace,
  thinPlaces,
} from './press/index.ts';
import { complement, type Mask } from './raster/index.ts';
import type { Mm } from './units/index.ts';

/** mm: features wider than this are no trouble to any mesh of the table that prints them. Own choice. */
export const FINE = 0.5;

export interface FinenessInput {
  readonly mask: Mask;
  readonly dpi: number;
}
export interface MeshLossInput extends FinenessInput {
  /** mm, the finest line and gap that the mesh holds. */
  readonly holds: Mm;
}
/** A film against its mesh: what is finest on it, and lines and gaps that are too fine, the largest first. */
export interface MeshLoss {
  readonly finest: FinestFeatures;
  readonly places: readonly ThinPlace[];
}

/** A film's finest line and gap, and where all that is fine lies; may run on another thread. */
export const filmFineness = ({ mask, dpi }: FinenessInput): FineMap => fineMap(mask, dpi, FINE);

/** What of a film its mesh may lose; may run on another thread. */
export function meshLoss({ mask, dpi, holds }: MeshLossInput): MeshLoss {
  const finest = finestFeatures(mask, dpi, FINE);
  const below = (mm: number | null) => mm !== null && mm < holds;
  const places = [
    ...(below(finest.line) ? thinPlaces(mask, dpi, holds) : []),
    ...(below(finest.gap) ? thinPlaces(complement(mask), dpi, holds) : []),
  ];
  return { finest, places: places.sort((a, b) => b.areaPx - a.areaPx) };
}
