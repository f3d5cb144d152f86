import type { Mask } from '../mask.ts';
import type { Plane } from '../plane.ts';
import type { ThresholdTile } from '../thresholdTile.ts';
import { type Kernels, Scratch } from './load.ts';

/** Bytes of plane a band aims at: they pass through the second cache on their way. */
const BAND = 1 << 17;
/** The kernel wraps once in so many points, and fastest of all where it wraps once in 64. */
const STEP = 16;
const WIDE = 64;

/** A tile's rows in the kernels' memory, each repeated for as long as a step may read beyond it. */
export class TileRows {
  readonly period: number;
  readonly pitch: number;
  readonly at: number;

  constructor(
    scratch: Scratch,
    private readonly tile: ThresholdTile,
  ) {
    const least = WIDE % tile.width === 0 ? WIDE : STEP;
    this.period = tile.width * Math.ceil(least / tile.width);
    this.pitch = this.period + (this.period === WIDE ? WIDE : STEP);
    this.at = scratch.take(this.pitch * tile.height + STEP);
  }

  write(bytes: Uint8Array): void {
    const { width, height, data } = this.tile;
    for (let y = 0; y < height; y++) {
      const row = data.subarray(y * width, (y + 1) * width);
      const to = this.at + y * this.pitch;
      for (let x = 0; x < this.pitch; x += width)
        bytes.set(x + width > this.pitch ? row.subarray(0, this.pitch - x) : row, to + x);
    }
  }
}

/** The compiled twin of `thresholdPlain`. */
export function thresholdFast(kernels: Kernels, plane: Plane, tile: ThresholdTile, out: Mask): void {
  const { width, height } = plane;
  const rows = Math.max(1, Math.min(height, Math.floor(BAND / width)));
  const scratch = new Scratch();
  const thresholds = new TileRows(scratch, tile);
  const outAt = scratch.take(rows * out.stride * 4 + 16);
  const planeAt = scratch.take(rows * width + 16);
  scratch.reserve(kernels);
  const bytes = new Uint8Array(kernels.memory.buffer);
  const words = new Uint32Array(kernels.memory.buffer);
  thresholds.write(bytes);
  for (let y = 0; y < height; y += rows) {
    const n = Math.min(rows, height - y);
    bytes.set(plane.data.subarray(y * width, (y + n) * width), planeAt);
    kernels.thresholdRows(
      planeAt,
      width,
      width,
      y,
      n,
      thresholds.at,
      thresholds.pitch,
      thresholds.period,
      tile.height,
      tile.shift % tile.width,
      outAt,
      out.stride * 4,
    );
    out.data.set(words.subarray(outAt >> 2, (outAt >> 2) + n * out.stride), y * out.stride);
  }
}
