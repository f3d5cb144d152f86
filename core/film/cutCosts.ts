import { feelEdges, inkCells } from '../raster/index.ts';
import type { Box } from '../units/index.ts';
import { type InkPart, startOf } from './inkPart.ts';

/** A band's values: `p` runs along the cut, `q` across it; `cell` mm a value. */
export interface CutBand {
  readonly rows: number;
  readonly columns: number;
  readonly cell: number;
  /** rows × columns: whether there is ink, whether it begins or ends close by, and which way its edge faces, as `feelEdges` tells it. */
  readonly codes: Uint8Array;
}

/** mm between the places a path may take across its band; whole cells of the costs. */
export const LANE = 0.25;

/**
 * Price of a mm: clear of ink, blank but close to ink, solid ink, ink at an edge; of each lane of turning; and by how much
 * more, at most, a mm at an edge costs that does not cross it square.
 */
export const CUT_PRICES = { blank: 0.02, close: 4, solid: 10, edge: 12, turn: 0.01, aslant: 0.5 } as const;
/** The same where nothing counts but to miss ink: a blank line is found though it is long, narrow and winding. */
export const MISS_PRICES = { ...CUT_PRICES, close: 0.05, solid: 1000, edge: 1000 } as const;
export type CutPrices = Readonly<Record<keyof typeof CUT_PRICES, number>>;

/** mm that count as close. */
const CLOSE = 0.5;

/** Ways an edge may face, over half a turn: 11¼° apart. */
export const FACINGS = 16;

/** A band of one film, at an eighth of a millimetre, or a quarter where pixels are coarser than an eighth. */
export function cutBand(film: InkPart, band: Box, runs: 'across' | 'along'): CutBand {
  const across = runs === 'across';
  const cell = 25.4 / film.dpi <= LANE / 2 ? LANE / 2 : LANE;
  const rows = Math.max(1, Math.round((across ? band.height : band.width) / cell));
  const columns = Math.max(1, Math.round((across ? band.width : band.height) / cell));
  const scale = film.dpi / 25.4;
  const top = film.box.y + film.box.height;
  const ink = inkCells(film.mask, {
    ...startOf(film),
    left: (band.x - film.box.x) * scale,
    above: (top - band.y - band.height) * scale,
    per: cell * scale,
    wide: across ? columns : rows,
    high: across ? rows : columns,
    upright: !across,
  });
  const reach = Math.max(1, Math.round(CLOSE / cell));
  return { rows, columns, cell, codes: feelEdges(ink, rows, columns, reach, FACINGS) };
}

/** What a mm costs by whether ink's edge is close by and whether there is ink: by a code's lower bits. */
export const pricesByKind = ({ blank, close, solid, edge }: CutPrices): Float32Array =>
  Float32Array.of(blank, close, solid, edge);
