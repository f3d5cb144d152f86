import { expect, test } from 'vitest';
import { type Kernels, kernels } from '../../../core/raster/kernels/load.ts';
import { lookUpFast } from '../../../core/raster/kernels/lookUpFast.ts';
import { lookUpPlain, newMemo } from '../../../core/raster/kernels/lookUpPlain.ts';
import { stream } from './randomMask.ts';

const fast = kernels() as Kernels;

/** Stretches of `colours` words, each as long as chance has it, up to `longest`. */
function picture(length: number, colours: number, longest: number, next: () => number): Int32Array {
  const words = new Int32Array(length);
  for (let i = 0; i < length; ) {
    // Among them 0, which is what an empty slot of the memo holds.
    const word = Math.imul(Math.floor(next() * colours), 0x01020309);
    const end = Math.min(length, i + 1 + Math.floor(next() * longest));
    words.fill(word, i, end);
    i = end;
  }
  return words;
}

test('bytes are looked up alike by the kernel and its plain twin, whatever their number and however long their stretches', () => {
  const next = stream(5);
  for (let length = 0; length <= 130; length++)
    for (const longest of [1, 3, 40]) {
      const words = picture(length, 7, longest, next);
      const answer = (word: number) => (word ^ (word >>> 7)) & 255;
      const [ours, plain] = [new Uint8Array(length), new Uint8Array(length)];
      lookUpFast(fast, words, answer, ours);
      lookUpPlain(words, answer, plain);
      expect(ours, `${length} words`).toEqual(plain);
      expect(plain).toEqual(Uint8Array.from(words, answer));
    }
});

test('more colours than the memo has slots, over several bands, are looked up right', () => {
  const next = stream(8);
  const words = picture(100_003, 90_000, 2, next);
  const answer = (word: number) => (word * 31 + (word >>> 11)) & 255;
  const ours = new Uint8Array(words.length);
  lookUpFast(fast, words, answer, ours);
  expect(ours).toEqual(Uint8Array.from(words, answer));
});

test('a memo that is kept asks again only for words it has not seen or has lost, and answers alike', () => {
  const next = stream(12);
  const answer = (word: number) => (word ^ (word >>> 9)) & 255;
  for (const look of [lookUpPlain, (...of: Parameters<typeof lookUpPlain>) => lookUpFast(fast, ...of)]) {
    const asked: number[] = [];
    const asking = (word: number) => {
      asked.push(word);
      return answer(word);
    };
    const memo = newMemo(asking);
    for (let round = 0; round < 3; round++) {
      const words = picture(50_000, 200, 9, next);
      const out = new Uint8Array(words.length);
      look(words, asking, out, memo);
      expect(out).toEqual(Uint8Array.from(words, answer));
      if (round > 0) expect(asked.length).toBeLessThan(420);
      expect(new Set(asked).size).toBeLessThanOrEqual(200);
    }
  }
});
