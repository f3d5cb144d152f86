import type { Band } from '../band.ts';
import type { Mask } from '../mask.ts';
import { type Kernels, Scratch } from './load.ts';

/** Points; beyond them squares do not fit 16 bits. */
export const FARTHEST_LIMIT = 254;
/** Rows worked out at a time, at least. */
const ROWS = 32;

/** The compiled twin of `distancePlain`, for limits up to `FARTHEST_LIMIT`: the band in strips of rows. */
export function distanceFast(
  kernels: Kernels,
  mask: Mask,
  band: Band,
  limit: number,
  out: Uint32Array,
): void {
  const { width, height, stride } = mask;
  const reach = Math.ceil(limit);
  const far = Math.floor(limit * limit + 1e-9);
  const strip = Math.min(band.rows, Math.max(ROWS, 2 * reach));
  const lanes = (width + 7) & ~7;
  const most = Math.min(height, strip + 2 * reach + 2);
  const scratch = new Scratch();
  const bitsAt = scratch.take(most * stride * 4);
  const walkAt = scratch.take(lanes * 2);
  const columnsAt = scratch.take(strip * lanes * 2);
  const lineAt = scratch.take((lanes + 2 * (reach + 9)) * 2);
  const outAt = scratch.take(strip * width * 4 + 32);
  scratch.reserve(kernels);
  const words = new Uint32Array(kernels.memory.buffer);
  for (let y = 0; y < band.rows; y += strip) {
    const rows = Math.min(strip, band.rows - y);
    const top = Math.max(0, band.y + y - reach - 1);
    const bottom = Math.min(height, band.y + y + rows + reach + 1);
    words.set(mask.data.subarray(top * stride, bottom * stride), bitsAt >> 2);
    const first = band.y + y - top;
    kernels.distanceRows(
      bitsAt,
      stride * 4,
      bottom - top,
      first,
      rows,
      width,
      reach,
      far,
      walkAt,
      columnsAt,
      lineAt,
      outAt,
    );
    out.set(words.subarray(outAt >> 2, (outAt >> 2) + rows * width), y * width);
  }
}
