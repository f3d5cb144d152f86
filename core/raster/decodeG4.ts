import type { Px } from '../units/index.ts';
import { BLACK, EOFB, HORIZONTAL, PASS, VERTICAL, WHITE } from './g4Codes.ts';
import { blankMask, type Mask } from './mask.ts';

const tableOf = (codes: readonly string[]): Map<string, number> => new Map(codes.map((code, i) => [code, i]));
const RUNS = [tableOf(WHITE), tableOf(BLACK)] as const;
const PASS_MODE = 7;
const HORIZONTAL_MODE = 8;
const MODES = tableOf([...VERTICAL, PASS, HORIZONTAL]);

/**
 * The mask that a CCITT Group 4 image (ITU-T T.6) shows, black as ink. Reads the codes one bit at a time: the readable
 * counterpart of `encodeG4`, for checks. Throws a RangeError where the data breaks off or holds a code that T.6 does not know.
 */
export function decodeG4(bytes: Uint8Array, width: Px, height: Px): Mask {
  const mask = blankMask(width, height);
  let at = 0;
  const read = (codes: ReadonlyMap<string, number>): number => {
    for (let code = ''; code.length < 14; ) {
      if (at >= bytes.length * 8) throw new RangeError(`The Group 4 data breaks off at bit ${at}.`);
      code += (bytes[at >>> 3]! >>> (7 - (at & 7))) & 1;
      at++;
      const value = codes.get(code);
      if (value !== undefined) return value;
    }
    throw new RangeError(`The Group 4 data holds no known code before bit ${at}.`);
  };
  const readRun = (black: 0 | 1): number => {
    for (let run = 0; ; ) {
      const code = read(RUNS[black]);
      if (code < 64) return run + code;
      run += 64 * (code - 63);
    }
  };
  let above: number[] = [];
  for (let y = 0; y < height; y++) {
    const row: number[] = [];
    let a0 = -1;
    let black: 0 | 1 = 0;
    const turn = (x: number) => {
      if (x < a0 || x > width) throw new RangeError(`Row ${y} of the Group 4 data runs out of the image.`);
      row.push(x);
      a0 = x;
      black = black === 0 ? 1 : 0;
    };
    while (a0 < width) {
      let b = above.findIndex((x, k) => x > a0 && (k & 1) === black);
      if (b < 0) b = above.length;
      const b1 = above[b] ?? width;
      const mode = read(MODES);
      if (mode === PASS_MODE) a0 = above[b + 1] ?? width;
      else if (mode === HORIZONTAL_MODE) {
        turn(Math.max(0, a0) + readRun(black));
        turn(a0 + readRun(black));
      } else turn(b1 + mode - 3);
    }
    for (let i = 0; i < row.length; i += 2)
      for (let x = row[i]!; x < (row[i + 1] ?? width); x++) {
        const word = y * mask.stride + (x >>> 5);
        mask.data[word] = mask.data[word]! | (1 << (x & 31));
      }
    above = row.filter((x) => x < width);
  }
  for (const bit of EOFB) {
    if (((bytes[at >>> 3]! >>> (7 - (at & 7))) & 1) !== Number(bit))
      throw new RangeError(`The Group 4 data does not end with EOFB at bit ${at}.`);
    at++;
  }
  return mask;
}
