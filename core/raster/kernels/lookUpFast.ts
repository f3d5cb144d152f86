import { type Kernels, Scratch } from './load.ts';
import { SLOTS, slotOf } from './lookUpPlain.ts';

/** Words a band aims at: with its answers it stays in the processor's second cache. */
const BAND = 1 << 15;
/** Bytes that the kernels read or write beyond what they are asked for. */
const OVER = 160;

/** The compiled twin of `lookUpPlain`: it asks for the answer of a word only when the memo does not hold it. */
export function lookUpFast(
  kernels: Kernels,
  words: Int32Array,
  answer: (word: number) => number,
  out: Uint8Array,
): void {
  const scratch = new Scratch();
  const keysAt = scratch.take(SLOTS * 4);
  const heldAt = scratch.take(SLOTS);
  const inputAt = scratch.take(BAND * 4 + OVER);
  const outputAt = scratch.take(BAND + OVER);
  scratch.reserve(kernels);
  const memory = new Int32Array(kernels.memory.buffer);
  const bytes = new Uint8Array(kernels.memory.buffer);
  memory.fill(0, keysAt >> 2, (keysAt >> 2) + SLOTS);
  bytes[heldAt] = answer(0);
  for (let from = 0; from < words.length; from += BAND) {
    const count = Math.min(BAND, words.length - from);
    memory.set(words.subarray(from, from + count), inputAt >> 2);
    let at = 0;
    for (;;) {
      at = kernels.lookUpWords(inputAt, at, count, keysAt, heldAt, outputAt);
      if (at >= count) break;
      const word = words[from + at]!;
      memory[(keysAt >> 2) + slotOf(word)] = word;
      bytes[heldAt + slotOf(word)] = answer(word);
    }
    out.set(bytes.subarray(outputAt, outputAt + count), from);
  }
}

/** The compiled twin of `differPlain`. */
export function differFast(
  kernels: Kernels,
  words: Int32Array,
  width: number,
  height: number,
  right: Int32Array,
  below: Int32Array,
): void {
  const stride = (width + 31) >>> 5;
  const most = Math.max(1, Math.min(height, Math.floor(BAND / width)));
  const scratch = new Scratch();
  const inputAt = scratch.take((most + 1) * width * 4 + OVER);
  const rightAt = scratch.take(most * stride * 4);
  const belowAt = scratch.take(most * stride * 4);
  scratch.reserve(kernels);
  const memory = new Int32Array(kernels.memory.buffer);
  for (let y = 0; y < height; y += most) {
    const rows = Math.min(most, height - y);
    const last = y + rows === height;
    memory.set(words.subarray(y * width, (y + rows + (last ? 0 : 1)) * width), inputAt >> 2);
    // Below the last row it stands once more: nothing differs.
    if (last) memory.set(words.subarray((height - 1) * width, height * width), (inputAt >> 2) + rows * width);
    kernels.differRows(inputAt, width, rows, rightAt, belowAt, stride * 4);
    right.set(memory.subarray(rightAt >> 2, (rightAt >> 2) + rows * stride), y * stride);
    below.set(memory.subarray(belowAt >> 2, (belowAt >> 2) + rows * stride), y * stride);
  }
}
