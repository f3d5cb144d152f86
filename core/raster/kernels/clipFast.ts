import { type Mask, signedWords } from '../mask.ts';
import { type Kernels, Scratch } from './load.ts';

/** Words that are brought to the kernel at once, and of which one change writes all back: no more than a page of memory. */
const BAND = 1 << 15;
const STRETCH = 1 << 10;

/** Takes from `mask` what `within` has not, in its place; writes only where that changes something. */
export function clipFast(kernels: Kernels, mask: Mask, within: Mask): void {
  const [words, may] = [signedWords(mask), signedWords(within)];
  const size = Math.min(BAND, words.length);
  const scratch = new Scratch();
  const at = scratch.take(size * 4);
  const mayAt = scratch.take(size * 4);
  scratch.reserve(kernels);
  const memory = new Int32Array(kernels.memory.buffer);
  for (let from = 0; from < words.length; from += size) {
    const end = Math.min(words.length, from + size);
    memory.set(words.subarray(from, end), at >> 2);
    memory.set(may.subarray(from, end), mayAt >> 2);
    for (let i = from; i < end; i += STRETCH) {
      const count = Math.min(STRETCH, end - i);
      const part = (i - from) * 4;
      if (kernels.clipRows(at + part, mayAt + part, count * 4) === 0) continue;
      words.set(memory.subarray((at + part) >> 2, ((at + part) >> 2) + count), i);
    }
  }
}
