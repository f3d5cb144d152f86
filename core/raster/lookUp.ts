import type { Px } from '../units/index.ts';
import { kernels } from './kernels/load.ts';
import { differFast, lookUpFast } from './kernels/lookUpFast.ts';
import { differPlain, lookUpPlain } from './kernels/lookUpPlain.ts';

/**
 * The byte that `answer` has for each word of a picture, into `out`: a memo holds the answers of words seen lately, so that it is
 * asked for few of them. It must always answer alike.
 */
export function lookUp(words: Int32Array, answer: (word: number) => number, out: Uint8Array): void {
  const fast = kernels();
  if (fast) lookUpFast(fast, words, answer, out);
  else lookUpPlain(words, answer, out);
}

/**
 * Where the words of a picture, one a point, differ from the next in their row (`right`) and in their column (`below`): bit x & 31
 * of word y × ceil(width / 32) + (x >> 5). Nothing lies beyond the picture's border.
 */
export function differences(
  words: Int32Array,
  width: Px,
  height: Px,
  right: Int32Array,
  below: Int32Array,
): void {
  const fast = width > 0 && height > 0 ? kernels() : null;
  if (fast) differFast(fast, words, width, height, right, below);
  else differPlain(words, width, height, right, below);
}
