import { type Mask, signedWords } from '../mask.ts';
import { type Kernels, Scratch } from './load.ts';

/** Bytes of rows that a band aims at. */
const BAND = 1 << 17;

/** The compiled twin of `msbRowsPlain`. */
export function msbRowsFast(
  kernels: Kernels,
  mask: Mask,
  bytes: number,
  flip: number,
  out: Uint8Array,
): void {
  const { stride, height } = mask;
  const most = Math.max(1, Math.min(height, Math.floor(BAND / Math.max(1, stride * 4))));
  const scratch = new Scratch();
  const inputAt = scratch.take(most * stride * 4 + 16);
  const outAt = scratch.take(most * bytes + 16);
  scratch.reserve(kernels);
  const words = signedWords(mask);
  const memory = new Int32Array(kernels.memory.buffer);
  const made = new Uint8Array(kernels.memory.buffer);
  for (let y = 0; y < height; y += most) {
    const rows = Math.min(most, height - y);
    memory.set(words.subarray(y * stride, (y + rows) * stride), inputAt >> 2);
    kernels.msbRows(inputAt, stride * 4, rows, bytes, flip, outAt);
    out.set(made.subarray(outAt, outAt + rows * bytes), y * bytes);
  }
}
