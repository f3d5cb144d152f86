import { type Kernels, Scratch } from './load.ts';

/** Bytes of input rows a band aims at: it then stays in the processor's second cache with its output. */
const BAND = 1 << 19;

/**
 * The compiled twin of `growRowsPlain`, with bits beyond the width cleared: works through bands of rows copied to the
 * kernels' memory, each with as many rows above and below as the disc reaches.
 */
export function growRowsFast(
  kernels: Kernels,
  input: Int32Array,
  output: Int32Array,
  stride: number,
  words: number,
  tail: number,
  height: number,
  half: Int32Array,
  shrinking: boolean,
): void {
  const reach = half.length - 1;
  const bytes = stride * 4;
  const bandRows = Math.max(16, 2 * reach, Math.floor(BAND / bytes));
  const most = Math.min(height, bandRows + 2 * reach);
  const scratch = new Scratch();
  const halfAt = scratch.take(half.length * 4);
  // Guards of 16 bytes on either side of both accumulators and behind the row of zeros.
  const rowsAt = scratch.take(3 * (bytes + 32) + 16) + 16;
  const inputAt = scratch.take(most * bytes);
  const outputAt = scratch.take(Math.min(height, bandRows) * bytes);
  scratch.reserve(kernels);
  const memory = new Int32Array(kernels.memory.buffer);
  memory.set(half, halfAt >> 2);
  memory.fill(0, (rowsAt - 16) >> 2, (rowsAt + 3 * (bytes + 32)) >> 2);
  for (let y = 0; y < height; y += bandRows) {
    const rows = Math.min(bandRows, height - y);
    const top = Math.max(0, y - reach);
    const bottom = Math.min(height, y + rows + reach);
    memory.set(input.subarray(top * stride, bottom * stride), inputAt >> 2);
    kernels.growRows(
      inputAt,
      outputAt,
      bytes,
      words,
      tail,
      y - top,
      rows,
      bottom - top,
      halfAt,
      reach,
      rowsAt,
      rowsAt + bytes + 32,
      rowsAt + 2 * (bytes + 32),
      shrinking ? 1 : 0,
    );
    output.set(memory.subarray(outputAt >> 2, (outputAt >> 2) + rows * stride), y * stride);
  }
}
