import { kernels } from './kernels/load.ts';
import { lookUpFast } from './kernels/lookUpFast.ts';
import { lookUpPlain, type Memo } from './kernels/lookUpPlain.ts';

/**
 * The byte that `answer` has for each word of a picture, into `out`: a memo holds the answers of words seen lately, so that it is
 * asked for few of them. It must always answer alike; with a `memo` of one's own (`newMemo`), for all pictures that use it.
 */
export function lookUp(
  words: Int32Array,
  answer: (word: number) => number,
  out: Uint8Array,
  memo?: Memo,
): void {
  const fast = kernels();
  if (fast) lookUpFast(fast, words, answer, out, memo);
  else lookUpPlain(words, answer, out, memo);
}
