import type { ColourTable } from './colourTable.ts';
import { colourTableFast } from './kernels/colourTableFast.ts';
import { colourTablePlain } from './kernels/colourTablePlain.ts';
import { kernels } from './kernels/load.ts';
import type { Picture } from './picture.ts';

/**
 * Shares of a picture, one plane each, point by point: the table interpolated in the tetrahedron that holds the colour, from the low
 * corner of a cube of nodes to the high one along the axes in the order of their fractions. Points are the first plane's by as much
 * as they are transparent. The planes sum to 255 at every point: what rounding leaves of one goes to the next. Throws where the
 * table's shares are not as many as its nodes ask for.
 */
export function sharesByTable(picture: Picture, table: ColourTable): Uint8Array[] {
  const { planes, axes, shares } = table;
  const nodes = axes[0].levels.length * axes[1].levels.length * axes[2].levels.length;
  if (planes < 1 || shares.length !== nodes * planes)
    throw new RangeError(
      `A table of ${nodes} colours and ${planes} planes can not hold ${shares.length} shares.`,
    );
  const points = picture.width * picture.height;
  const out = Array.from({ length: planes }, () => new Uint8Array(points));
  const fast = kernels();
  if (fast) colourTableFast(fast, picture, table, out);
  else colourTablePlain(picture, table, out);
  return out;
}
