import type { Px } from '../units/index.ts';
import { kernels } from './kernels/load.ts';
import { warpRowsFast, warpSparseFast } from './kernels/warpFast.ts';
import { warpRows } from './kernels/warpPlain.ts';
import type { Mask } from './mask.ts';
import { type SparseCoverage, spreadPlanes } from './sparseCoverage.ts';
import type { WarpGrid } from './warpGrid.ts';

/**
 * Brings coverage through a warp to packed masks, the largest coverage winning at each output point.
 *
 * For every point of the tile (outX, outY, width, height) of the masks, the planes are sampled bilinearly at the place the
 * grid names (positions to 1/2048 of a source point; beyond the source plane 0 is 255 and the others 0). The plane with the largest
 * sample wins, the lowest index among equals. Plane 0 is bare and writes nothing; plane k inks the point in
 * `out[k − 1]`. Ink already in the masks stays.
 *
 * `filter` bicubic: cubic convolution over sixteen points, smoother edges where coarse art is enlarged (see `warpRows`).
 *
 * `outX` is a multiple of 32; the tile lies inside the masks and inside the grid. Throws otherwise.
 */
export function warpArgmax(
  planes: readonly Uint8Array[],
  srcWidth: Px,
  srcHeight: Px,
  grid: WarpGrid,
  out: readonly Mask[],
  outX: Px,
  outY: Px,
  width: Px,
  height: Px,
  filter: 'bilinear' | 'bicubic' = 'bilinear',
): void {
  checkTile(planes, srcWidth, srcHeight, grid, out, outX, outY, width, height);
  if (width === 0 || height === 0 || planes.length < 2) return;
  const fast = kernels();
  const cubic = filter === 'bicubic';
  if (fast && warpRowsFast(fast, planes, srcWidth, srcHeight, grid, out, outX, outY, width, height, cubic))
    return;
  warpRows(planes, srcWidth, srcHeight, grid, out, outX, outY, width, height, cubic);
}

/** `warpArgmax` for coverage told shortly; the same masks, which must be bare where the tile lies. */
export function warpSparse(
  coverage: SparseCoverage,
  grid: WarpGrid,
  out: readonly Mask[],
  outX: Px,
  outY: Px,
  width: Px,
  height: Px,
): void {
  const fast = coverage.planeCount > 1 ? kernels() : null;
  if (fast) {
    checkPlace(coverage.planeCount, coverage.width, coverage.height, grid, out, outX, outY, width, height);
    if (width === 0 || height === 0) return;
    if (warpSparseFast(fast, coverage, grid, out, outX, outY, width, height)) return;
  }
  const planes = spreadPlanes(coverage);
  warpArgmax(planes, coverage.width, coverage.height, grid, out, outX, outY, width, height);
}

const must = (holds: boolean, what: string): void => {
  if (!holds) throw new RangeError(`warpArgmax: ${what}.`);
};

function checkTile(
  planes: readonly Uint8Array[],
  srcWidth: number,
  srcHeight: number,
  grid: WarpGrid,
  out: readonly Mask[],
  outX: number,
  outY: number,
  width: number,
  height: number,
): void {
  must(
    planes.every((plane) => plane.length >= srcWidth * srcHeight),
    `a plane must hold ${srcWidth} × ${srcHeight} points`,
  );
  checkPlace(planes.length, srcWidth, srcHeight, grid, out, outX, outY, width, height);
}

function checkPlace(
  planeCount: number,
  srcWidth: number,
  srcHeight: number,
  grid: WarpGrid,
  out: readonly Mask[],
  outX: number,
  outY: number,
  width: number,
  height: number,
): void {
  must(outX % 32 === 0, `a tile must start at a multiple of 32 points, not at ${outX}`);
  must(out.length >= planeCount - 1, `${planeCount} planes need ${planeCount - 1} masks, not ${out.length}`);
  must(srcWidth <= 32000 && srcHeight <= 32000, 'a source may be at most 32000 points wide and high');
  must(
    (grid.cols - 1) * grid.step >= width && (grid.rows - 1) * grid.step >= height,
    `a grid of ${grid.cols} × ${grid.rows} nodes every ${grid.step} points does not span ${width} × ${height} points`,
  );
  for (const mask of out)
    must(
      outX >= 0 && outY >= 0 && outX + width <= mask.width && outY + height <= mask.height,
      'the tile must lie inside the masks',
    );
}
