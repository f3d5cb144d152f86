import type { Picture } from '../raster/index.ts';
import { codeOf, type Labels } from './labels.ts';

/** Slots of the memo of colours: flat art has a handful, soft edges some thousands. */
const SLOTS = 1 << 16;

/** The picture's points as 32-bit words (a copy only where its bytes are not aligned): equal words are equal colours. */
export function wordsOf({ data, width, height }: Picture): Uint32Array {
  const aligned = (data.byteOffset & 3) === 0 ? data : data.slice();
  return new Uint32Array(aligned.buffer, aligned.byteOffset, width * height);
}

/** The code of every point (see `codeOf`). A memo holds the answer for colours seen lately. */
export function codesOf(picture: Picture, words: Uint32Array, labels: Labels): Uint8Array {
  const { data } = picture;
  const codes = new Uint8Array(words.length);
  const keys = new Uint32Array(SLOTS);
  const held = new Uint8Array(SLOTS);
  // An empty slot holds the key 0: transparent black, which hashes to slot 0 and nowhere else.
  held[0] = codeOf(labels, 0, 0, 0, 0);
  let last = 0;
  let lastCode = held[0]!;
  for (let i = 0; i < words.length; i++) {
    const word = words[i]!;
    if (word !== last) {
      const slot = Math.imul(word, 0x9e3779b1) >>> 16;
      if (keys[slot] !== word) {
        const o = i * 4;
        keys[slot] = word;
        held[slot] = codeOf(labels, data[o]!, data[o + 1]!, data[o + 2]!, data[o + 3]!);
      }
      last = word;
      lastCode = held[slot]!;
    }
    codes[i] = lastCode;
  }
  return codes;
}
