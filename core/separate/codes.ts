import type { Picture } from '../raster/index.ts';
import { codeOf, type Labels } from './labels.ts';
import type { Workspace } from './workspace.ts';

/** Slots of the memo of colours: flat art has a handful, soft edges some thousands. */
const SLOTS = 1 << 16;

/** The picture's points as 32-bit words (a copy only where its bytes are not aligned): equal words are equal colours. */
export function wordsOf({ data, width, height }: Picture): Int32Array {
  const aligned = (data.byteOffset & 3) === 0 ? data : data.slice();
  return new Int32Array(aligned.buffer, aligned.byteOffset, width * height);
}

/**
 * The code of every point (see `codeOf`). A memo holds the answer for colours seen lately; `uneven` (see `unevenPoints`) tells
 * stretches of one colour, which are answered as one.
 */
export function codesOf(
  picture: Picture,
  words: Int32Array,
  uneven: Int32Array,
  labels: Labels,
  space: Workspace,
): Uint8Array {
  const { data, width, height } = picture;
  const codes = space.bytes('codes', words.length);
  const keys = new Int32Array(SLOTS);
  const held = new Uint8Array(SLOTS);
  // An empty slot holds the key 0: transparent black, which hashes to slot 0 and nowhere else.
  held[0] = codeOf(labels, 0, 0, 0, 0);
  const codeAt = (i: number): number => {
    const word = words[i]!;
    const slot = Math.imul(word, 0x9e3779b1) >>> 16;
    if (keys[slot] !== word) {
      const o = i * 4;
      keys[slot] = word;
      held[slot] = codeOf(labels, data[o]!, data[o + 1]!, data[o + 2]!, data[o + 3]!);
    }
    return held[slot]!;
  };
  const stride = (width + 31) >>> 5;
  for (let y = 0, at = 0; y < height; y++) {
    const row = y * width;
    for (let w = 0; w < stride; w++, at++) {
      const first = row + w * 32;
      if (uneven[at] === 0) {
        const word = words[first];
        while (w + 1 < stride && uneven[at + 1] === 0 && words[row + (w + 1) * 32] === word) {
          w++;
          at++;
        }
        codes.fill(codeAt(first), first, Math.min(row + width, row + (w + 1) * 32));
        continue;
      }
      const end = Math.min(row + width, first + 32);
      let last = words[first]!;
      let code = codeAt(first);
      for (let i = first; i < end; i++) {
        if (words[i] !== last) {
          last = words[i]!;
          code = codeAt(i);
        }
        codes[i] = code;
      }
    }
  }
  return codes;
}
