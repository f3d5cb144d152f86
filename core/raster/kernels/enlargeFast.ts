import type { Mask } from '../mask.ts';
import type { Plane } from '../plane.ts';
import type { ThresholdTile } from '../thresholdTile.ts';
import { type Kernels, Scratch } from './load.ts';
import { TileRows } from './thresholdFast.ts';

/** Bytes of mask a band aims at. */
const BAND = 1 << 17;
/** Beyond this factor 32-bit floats would round some quotients wrongly. */
export const WIDEST_FACTOR = 128;

/** The compiled twin of `screenEnlargedPlain`, for factors up to `WIDEST_FACTOR`. */
export function screenEnlargedFast(
  kernels: Kernels,
  plane: Plane,
  factor: number,
  tile: ThresholdTile,
  out: Mask,
): void {
  const { width: across, height: down } = plane;
  const pitch = out.stride * 4;
  const rows = Math.min(out.height, Math.max(factor, Math.floor(BAND / pitch)));
  const planeRows = Math.min(down, Math.ceil(rows / factor) + 2);
  const scratch = new Scratch();
  const thresholds = new TileRows(scratch, tile);
  const planeAt = scratch.take(planeRows * across + 16);
  const lineAt = scratch.take((across + 8) * 4);
  const rowAt = scratch.take(out.width + 2 * factor + 64) + factor + 16;
  const outAt = scratch.take(rows * pitch + 16);
  scratch.reserve(kernels);
  const bytes = new Uint8Array(kernels.memory.buffer);
  const words = new Uint32Array(kernels.memory.buffer);
  thresholds.write(bytes);
  for (let y = 0; y < out.height; y += rows) {
    const n = Math.min(rows, out.height - y);
    const top = Math.max(0, Math.floor((2 * y + 1 - factor) / (2 * factor)));
    const bottom = Math.min(down, Math.floor((2 * (y + n) - 1 - factor) / (2 * factor)) + 2);
    bytes.set(plane.data.subarray(top * across, bottom * across), planeAt);
    kernels.screenRows(
      planeAt,
      top,
      across,
      down,
      factor,
      y,
      n,
      out.width,
      lineAt,
      rowAt,
      thresholds.at,
      thresholds.pitch,
      thresholds.period,
      tile.height,
      tile.shift % tile.width,
      outAt,
      pitch,
    );
    out.data.set(words.subarray(outAt >> 2, (outAt >> 2) + n * out.stride), y * out.stride);
  }
}
