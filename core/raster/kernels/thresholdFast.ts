import type { Mask } from '../mask.ts';
import type { Plane } from '../plane.ts';
import type { ThresholdTile } from '../thresholdTile.ts';
import { type Kernels, Scratch } from './load.ts';

/** Bytes of plane a band aims at. */
const BAND = 1 << 19;

/** The compiled twin of `thresholdPlain`. */
export function thresholdFast(kernels: Kernels, plane: Plane, tile: ThresholdTile, out: Mask): void {
  const { width, height } = plane;
  // The kernel steps 16 points at a time and wraps once a step: its period is at least that.
  const times = Math.ceil(16 / tile.width);
  const period = tile.width * times;
  const pitch = period + 16;
  const rows = Math.max(1, Math.floor(BAND / width));
  const scratch = new Scratch();
  const tileAt = scratch.take(pitch * tile.height + 16);
  const outAt = scratch.take(rows * out.stride * 4 + 16);
  const planeAt = scratch.take(rows * width + 16);
  scratch.reserve(kernels);
  const bytes = new Uint8Array(kernels.memory.buffer);
  const words = new Uint32Array(kernels.memory.buffer);
  for (let y = 0; y < tile.height; y++)
    for (let x = 0; x < pitch; x++)
      bytes[tileAt + y * pitch + x] = tile.data[y * tile.width + (x % tile.width)]!;
  for (let y = 0; y < height; y += rows) {
    const n = Math.min(rows, height - y);
    bytes.set(plane.data.subarray(y * width, (y + n) * width), planeAt);
    kernels.thresholdRows(
      planeAt,
      width,
      width,
      y,
      n,
      tileAt,
      pitch,
      period,
      tile.height,
      tile.shift % tile.width,
      outAt,
      out.stride * 4,
    );
    out.data.set(words.subarray(outAt >> 2, (outAt >> 2) + n * out.stride), y * out.stride);
  }
}
