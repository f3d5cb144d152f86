import { lookUp, type Picture } from '../raster/index.ts';
import { codeOf, type Labels } from './labels.ts';
import type { Workspace } from './workspace.ts';

/** The picture's points as 32-bit words (a copy only where its bytes are not aligned): equal words are equal colours. */
export function wordsOf({ data, width, height }: Picture): Int32Array {
  const aligned = (data.byteOffset & 3) === 0 ? data : data.slice();
  return new Int32Array(aligned.buffer, aligned.byteOffset, width * height);
}

/** The code of every point (see `codeOf`), whose words are red in the lowest byte. */
export function codesOf(words: Int32Array, labels: Labels, space: Workspace): Uint8Array {
  const codes = space.bytes('codes', words.length);
  const answer = (word: number): number =>
    codeOf(labels, word & 255, (word >>> 8) & 255, (word >>> 16) & 255, word >>> 24);
  // The windows of one piece of art have the same labels, and many of the same soft colours.
  lookUp(words, answer, codes, space.memo(`${labels.colour} ${labels.plane}`, answer));
  return codes;
}
