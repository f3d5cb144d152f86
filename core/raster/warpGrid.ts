import type { Px } from '../units/index.ts';

/**
 * Where the points of an output tile come from. Node (c, r) sits `c × step` points right of and `r × step` below the tile's
 * top left corner; `xy` holds its place in the source, x and y one after the other, rows of `cols` nodes, in source points
 * measured from the source's top left corner (the centre of source point i is at i + 0.5). Between nodes: bilinear.
 */
export interface WarpGrid {
  readonly step: Px;
  readonly cols: number;
  readonly rows: number;
  readonly xy: Float32Array;
}
