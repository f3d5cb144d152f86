import { BitWriter } from '../bitWriter.ts';
import { BLACK, EOFB, HORIZONTAL, PASS, VERTICAL, WHITE } from '../g4Codes.ts';
import { type Mask, signedWords } from '../mask.ts';
import { rowChanges } from '../rowChanges.ts';

const fromBits = (code: string): number => Number.parseInt(code, 2);
/** Values and lengths of both colours' run codes: white from 0, black from `COLOUR`. */
const COLOUR = 128;
export const VALUES = new Int32Array(2 * COLOUR);
export const LENGTHS = new Int32Array(2 * COLOUR);
for (const [base, codes] of [
  [0, WHITE],
  [COLOUR, BLACK],
] as const)
  codes.forEach((code, i) => {
    VALUES[base + i] = fromBits(code);
    LENGTHS[base + i] = code.length;
  });
/** Of the vertical modes, by a1 − b1 + 3. */
export const VERTICAL_VALUES = Int32Array.from(VERTICAL, fromBits);
export const VERTICAL_LENGTHS = Int32Array.from(VERTICAL, (code) => code.length);

function putRun(bits: BitWriter, base: number, length: number): void {
  let rest = length;
  while (rest >= 2624) {
    bits.put(VALUES[base + 63 + 40]!, LENGTHS[base + 63 + 40]!);
    rest -= 2560;
  }
  if (rest >= 64) {
    const code = base + 63 + (rest >>> 6);
    bits.put(VALUES[code]!, LENGTHS[code]!);
    rest &= 63;
  }
  bits.put(VALUES[base + rest]!, LENGTHS[base + rest]!);
}

/** The readable definition of `encodeG4`: works on the changes of packed rows; cost is words plus runs. */
export function encodeG4Plain(mask: Mask): Uint8Array {
  const { width, height, stride } = mask;
  const words = signedWords(mask);
  const bits = new BitWriter((stride * height) >>> 1);
  // Changes of the row under way and of the row above it, each followed by the width as a sentinel.
  let row = new Int32Array(width + 8).fill(width);
  let above = new Int32Array(width + 8).fill(width);
  for (let y = 0; y < height; y++) {
    const n = rowChanges(words, y * stride, width, 0, row);
    row.fill(width, n, n + 4);
    let a0 = -1;
    // Even entries of both lists turn white to black: a1's and b1's places have the same parity.
    let i = 0;
    let j = 0;
    while (a0 < width) {
      const a1 = row[i]!;
      let k = (j & ~1) | (i & 1);
      while (k >= 2 && above[k - 2]! > a0) k -= 2;
      while (above[k]! <= a0 && above[k]! < width) k += 2;
      j = k;
      const b1 = above[k]!;
      const offset = a1 - b1;
      if (offset > 0 && above[k + 1]! < a1) {
        bits.put(1, PASS.length);
        a0 = above[k + 1]!;
      } else if (offset >= -3 && offset <= 3) {
        bits.put(VERTICAL_VALUES[offset + 3]!, VERTICAL_LENGTHS[offset + 3]!);
        a0 = a1;
        i++;
      } else {
        const a2 = row[i + 1]!;
        const [first, second] = (i & 1) === 0 ? [0, COLOUR] : [COLOUR, 0];
        bits.put(1, HORIZONTAL.length);
        putRun(bits, first, a1 - Math.max(a0, 0));
        putRun(bits, second, a2 - a1);
        a0 = a2;
        i += 2;
      }
    }
    [row, above] = [above, row];
  }
  bits.put(fromBits(EOFB), EOFB.length);
  return bits.finish();
}
