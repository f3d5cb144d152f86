import { feelEdgesFast } from './kernels/edgesFast.ts';
import { feelEdgesPlain } from './kernels/edgesPlain.ts';
import { kernels } from './kernels/load.ts';

/**
 * What every cell of a picture of `rows` × `columns` cells, 1 where there is ink, is to a knife, as a code (`INKED`, `MIXED`, `FACING`): whether
 * it has ink, whether it lies within `reach` of an edge along either axis, and which of `ways` ways, over half a turn, that faces there: the main direction of the ink's gradients within `reach` cells (the
 * structure tensor of Förstner and Gülch, 1987, summed over a square), angles from rows towards columns. Throws a RangeError for a reach
 * beyond 7, whose sums a byte does not hold.
 */
export function feelEdges(
  ink: Uint8Array,
  rows: number,
  columns: number,
  reach: number,
  ways: number,
): Uint8Array {
  if ((2 * reach + 1) ** 2 > 255)
    throw new RangeError(`Edges are felt within ${reach} values, which is too far.`);
  const fast = kernels();
  return fast
    ? feelEdgesFast(fast, ink, rows, columns, reach, ways)
    : feelEdgesPlain(ink, rows, columns, reach, ways);
}
