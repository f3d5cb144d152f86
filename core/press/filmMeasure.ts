import type { Face } from '../deck/index.ts';
import type { Box, Mm } from '../units/index.ts';
import type { FineMap } from './fineMap.ts';

/** What the real film of an ink is like, measured at its own resolution. */
export interface FilmMeasure {
  readonly face: Face;
  readonly inkId: string;
  readonly inkedCm2: number;
  readonly sheets: number;
  /** mm; null: none under half a millimetre. */
  readonly line: Mm | null;
  readonly gap: Mm | null;
  /** Where ink and gaps are fine: cells over `box`, surface mm, row 0 at the top. */
  readonly fine: Pick<FineMap, 'columns' | 'rows' | 'lines' | 'gaps'> & { readonly box: Box };
}
