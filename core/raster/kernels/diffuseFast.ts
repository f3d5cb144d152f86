import type { Mask } from '../mask.ts';
import type { Plane } from '../plane.ts';
import { type Kernels, Scratch } from './load.ts';

/** The compiled twin of diffusing every row, in turns from left to right and from right to left. */
export function diffuseFast(kernels: Kernels, plane: Plane, out: Mask): void {
  const { width, height } = plane;
  const rowBytes = out.stride * 4;
  const errorBytes = (width + 8) * 4;
  const rows = Math.max(1, Math.floor((1 << 19) / width));
  const scratch = new Scratch();
  let errors = scratch.take(errorBytes) + 16;
  let next = scratch.take(errorBytes) + 16;
  const outAt = scratch.take(rows * rowBytes);
  const valuesAt = scratch.take(rows * width);
  scratch.reserve(kernels);
  const bytes = new Uint8Array(kernels.memory.buffer);
  const words = new Uint32Array(kernels.memory.buffer);
  bytes.fill(0, errors - 16, errors - 16 + errorBytes);
  for (let y = 0; y < height; y += rows) {
    const n = Math.min(rows, height - y);
    bytes.set(plane.data.subarray(y * width, (y + n) * width), valuesAt);
    for (let row = 0; row < n; row++) {
      const backwards = (y + row) & 1;
      kernels.diffuseRow(
        valuesAt + row * width,
        width,
        errors,
        next,
        outAt + row * rowBytes,
        rowBytes,
        backwards,
      );
      [errors, next] = [next, errors];
    }
    out.data.set(words.subarray(outAt >> 2, (outAt >> 2) + n * out.stride), y * out.stride);
  }
}
