import { deflateSync, inflateSync } from 'node:zlib';
import { unzlibSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { deflate, msbRows } from '../../../core/raster/index.ts';
import { deflateFast } from '../../../core/raster/kernels/deflateFast.ts';
import { CHUNK, deflatePlain } from '../../../core/raster/kernels/deflatePlain.ts';
import { codeLengths, codesFor } from '../../../core/raster/kernels/huffmanPlain.ts';
import { type Kernels, kernels } from '../../../core/raster/kernels/load.ts';
import { blobs, randomMask, stream } from './randomMask.ts';

const fast = kernels() as Kernels;

/** Bytes of so many kinds, of which a share repeats what stood shortly before. */
function bytes(length: number, seed: number): Uint8Array {
  const random = stream(seed);
  const kinds = 1 + Math.floor(random() * 256);
  const repeats = random();
  const out = new Uint8Array(length);
  for (let i = 0; i < length; ) {
    const back = 1 + Math.floor(random() * Math.min(i, 40_000));
    const run = random() < repeats && i > 0 ? 1 + Math.floor(random() * 20) : 0;
    for (let end = Math.min(length, i + run); i < end; i++) out[i] = out[i - back]!;
    if (i < length) out[i++] = Math.floor(random() * kinds);
  }
  return out;
}

const plainSum = (counts: readonly number[], lengths: Int32Array) =>
  counts.reduce((sum, count, i) => sum + count * lengths[i]!, 0);

/** The least sum that any prefix code reaches: D. A. Huffman's own construction, by a list sorted anew each time. */
function leastSum(counts: readonly number[]): number {
  const list = counts.filter((count) => count > 0);
  let sum = 0;
  while (list.length > 1) {
    list.sort((a, b) => a - b);
    const joined = list.shift()! + list.shift()!;
    sum += joined;
    list.push(joined);
  }
  return sum;
}

describe('deflate', () => {
  test('by the kernel gives the twin’s bytes, which zlib and fflate read back, at every awkward size', () => {
    const random = stream(5);
    const sizes = [
      0,
      1,
      2,
      3,
      4,
      257,
      258,
      259,
      32767,
      32768,
      65535,
      65536,
      CHUNK - 1,
      CHUNK,
      CHUNK + 1,
      2 * CHUNK + 5,
    ];
    for (let tried = 0; tried < 120; tried++) sizes.push(Math.floor(random() ** 3 * 60_000));
    for (const [i, size] of sizes.entries()) {
      const input = bytes(size, i);
      const packed = deflatePlain(input);
      const told = `${size} bytes, ${i}`;
      expect(Buffer.from(deflateFast(fast, input)).equals(packed), told).toBe(true);
      expect(inflateSync(packed).equals(input), told).toBe(true);
      expect(Buffer.from(unzlibSync(packed)).equals(input), told).toBe(true);
    }
  });

  test('packs pictures about as small as zlib does, and never makes noise larger than its blocks’ heads', () => {
    for (const mask of [blobs(4000, 900, 300, 1), randomMask(1500, 900, 0.03, 2), blobs(3000, 3000, 0, 3)]) {
      const rows = msbRows(mask);
      expect(deflate(rows).length).toBeLessThan(1.08 * deflateSync(rows, { level: 6 }).length + 64);
    }
    const noise = new Uint32Array(200_000);
    const random = stream(9);
    for (let i = 0; i < noise.length; i++) noise[i] = random() * 2 ** 32;
    expect(deflate(new Uint8Array(noise.buffer)).length).toBeLessThan(noise.byteLength * 1.0005 + 64);
  });
});

describe('codes of deflate', () => {
  test('are optimal where the longest allows it, and complete where it does not', () => {
    const random = stream(11);
    const fibonacci = [1, 1];
    while (fibonacci.length < 30) fibonacci.push(fibonacci.at(-1)! + fibonacci.at(-2)!);
    const cases = [fibonacci, fibonacci.slice(0, 9), [1, 1], [3, 0, 0, 7]];
    for (let i = 0; i < 200; i++) {
      const symbols = 2 + Math.floor(random() * 284);
      cases.push(Array.from({ length: symbols }, (_, at) => (at < 2 ? 1 : Math.floor(random() ** 6 * 3000))));
    }
    for (const counts of cases) {
      for (const longest of [15, 9]) {
        const lengths = new Int32Array(counts.length);
        codeLengths(Int32Array.from(counts), counts.length, longest, lengths);
        expect(lengths.every((length, i) => length <= longest && length > 0 === counts[i]! > 0)).toBe(true);
        // L. G. Kraft's sum is 1: every row of bits is some code's beginning.
        expect(lengths.reduce((sum, length) => sum + (length > 0 ? 2 ** (longest - length) : 0), 0)).toBe(
          2 ** longest,
        );
        const free = new Int32Array(counts.length);
        codeLengths(Int32Array.from(counts), counts.length, 30, free);
        expect(plainSum(counts, free)).toBe(leastSum(counts));
        if (Math.max(...free) <= longest) expect(plainSum(counts, lengths)).toBe(plainSum(counts, free));
      }
    }
  });

  test('are RFC 1951’s own, in its example', () => {
    // Section 3.2.2: lengths 3, 3, 3, 3, 3, 2, 4, 4 of A to H give 010, 011, 100, 101, 110, 00, 1110, 1111.
    const codes = new Int32Array(8);
    codesFor(Int32Array.of(3, 3, 3, 3, 3, 2, 4, 4), 8, codes);
    const turned = ['010', '011', '100', '101', '110', '00', '1110', '1111'].map((code) =>
      Number.parseInt([...code].reverse().join(''), 2),
    );
    expect([...codes]).toEqual(turned);
  });
});
