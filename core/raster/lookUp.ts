import { kernels } from './kernels/load.ts';
import { lookUpFast } from './kernels/lookUpFast.ts';
import { lookUpPlain } from './kernels/lookUpPlain.ts';

/**
 * The byte that `answer` has for each word of a picture, into `out`: a memo holds the answers of words seen lately, so that it is
 * asked for few of them. It must always answer alike.
 */
export function lookUp(words: Int32Array, answer: (word: number) => number, out: Uint8Array): void {
  const fast = kernels();
  if (fast) lookUpFast(fast, words, answer, out);
  else lookUpPlain(words, answer, out);
}
