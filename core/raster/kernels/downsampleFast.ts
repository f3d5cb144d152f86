import type { Mask } from '../mask.ts';
import type { Plane } from '../plane.ts';
import { type Kernels, Scratch } from './load.ts';

/** Bytes of mask a band aims at. */
const BAND = 1 << 16;
/** Squares wider than a word are left to the plain twin. */
export const WIDEST_SQUARE = 32;

/** The compiled twin of `downsamplePlain`, for factors of 2 to `WIDEST_SQUARE`. */
export function downsampleFast(kernels: Kernels, mask: Mask, factor: number, out: Plane): void {
  const { stride, height } = mask;
  const bytes = stride * 4;
  const outRows = Math.max(1, Math.min(out.height, Math.floor(BAND / (bytes * factor))));
  // Factor 2 writes whole words' worth of points.
  const pitch = factor === 2 ? bytes * 4 : out.width;
  const scratch = new Scratch();
  const levelAt = scratch.take(factor * factor + 1);
  const digitsAt = scratch.take(6 * (bytes + 16));
  const inputAt = scratch.take(outRows * factor * bytes);
  const outAt = scratch.take(outRows * pitch);
  scratch.reserve(kernels);
  const memory = new Uint8Array(kernels.memory.buffer);
  const words = new Uint32Array(kernels.memory.buffer);
  memory.fill(0, digitsAt, digitsAt + 6 * (bytes + 16));
  const full = factor * factor;
  for (let n = 0; n <= full; n++) memory[levelAt + n] = Math.round((n * 255) / full);
  for (let y = 0; y < out.height; y += outRows) {
    const n = Math.min(outRows, out.height - y);
    const rows = Math.min(height - y * factor, n * factor);
    words.set(mask.data.subarray(y * factor * stride, (y * factor + rows) * stride), inputAt >> 2);
    // Rows below the mask are bare.
    memory.fill(0, inputAt + rows * bytes, inputAt + n * factor * bytes);
    kernels.downsampleRows(inputAt, bytes, factor, levelAt, digitsAt, outAt, out.width, pitch, n);
    if (pitch === out.width) out.data.set(memory.subarray(outAt, outAt + n * pitch), y * pitch);
    else
      for (let row = 0; row < n; row++) {
        const at = outAt + row * pitch;
        out.data.set(memory.subarray(at, at + out.width), (y + row) * out.width);
      }
  }
}
