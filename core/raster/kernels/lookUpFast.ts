import { type Kernels, Scratch } from './load.ts';
import { type Memo, newMemo, SLOTS, slotOf } from './lookUpPlain.ts';

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
  memo: Memo = newMemo(answer),
): void {
  const scratch = new Scratch();
  const keysAt = scratch.take(SLOTS * 4);
  const heldAt = scratch.take(SLOTS);
  const inputAt = scratch.take(BAND * 4 + OVER);
  const outputAt = scratch.take(BAND + OVER);
  scratch.reserve(kernels);
  const memory = new Int32Array(kernels.memory.buffer);
  const bytes = new Uint8Array(kernels.memory.buffer);
  memory.set(memo.keys, keysAt >> 2);
  bytes.set(memo.held, heldAt);
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
  memo.keys.set(memory.subarray(keysAt >> 2, (keysAt >> 2) + SLOTS));
  memo.held.set(bytes.subarray(heldAt, heldAt + SLOTS));
}
