import { kernels } from './kernels/load.ts';
import { thresholdFast } from './kernels/thresholdFast.ts';
import { thresholdPlain } from './kernels/thresholdPlain.ts';
import { blankMask, type Mask } from './mask.ts';
import type { Plane } from './plane.ts';
import type { ThresholdTile } from './thresholdTile.ts';

/**
 * One bit a point of a plane of ink coverage (0 none, 255 full): ink where the coverage is at least the tile's threshold.
 * Coverage 0 never has ink and 255 always has. `out`, of the plane's size, takes the result where given.
 */
export function thresholdMask(
  plane: Plane,
  tile: ThresholdTile,
  out: Mask = blankMask(plane.width, plane.height),
): Mask {
  if (tile.data.length !== tile.width * tile.height || tile.data.length === 0 || tile.shift < 0)
    throw new RangeError(
      `A tile of ${tile.width} × ${tile.height} thresholds can not hold ${tile.data.length}.`,
    );
  if (out.width !== plane.width || out.height !== plane.height)
    throw new RangeError(
      `A plane of ${plane.width} × ${plane.height} does not fit a mask of ${out.width} × ${out.height}.`,
    );
  if (plane.width === 0) return out;
  const fast = kernels();
  if (fast) thresholdFast(fast, plane, tile, out);
  else thresholdPlain(plane, tile, out);
  return out;
}
