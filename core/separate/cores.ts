import type { Px } from '../units/index.ts';
import { FAR, LABEL, TIGHT } from './labels.ts';

/** A core's byte is its label and one of these; 0 is no core. Labels are 6 bits, so both fit. */
export const SURE = 0x80;
/** Enough neighbours agree to be evidence of the label, not enough to be settled. */
export const LIKELY = 0x40;

/** Points of 9 that must be near one label to make its middle likely: a line two points wide has 6, a soft edge 3. */
const LIKELY_COUNT = 6;
/** Encoded levels between neighbours within which a colour that is near no ink still counts as one flat area. */
const FLAT_LEVELS = 5;

/**
 * Finds the pure points. A point is sure of its label when all nine points about it are near that label, when it lies in a
 * 2 × 2 block of exactly that label's colour, or when the nine are one flat colour that no ink is near (`FAR`: the nearest
 * ink has it). A soft edge is one point wide and has neither. Points beyond the picture's border repeat the border.
 */
export function coresOf(
  codes: Uint8Array,
  words: Uint32Array,
  data: Uint8Array | Uint8ClampedArray,
  width: Px,
  height: Px,
): Uint8Array {
  const cores = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    const row = y * width;
    const up = y > 0 ? row - width : row;
    const down = y < height - 1 ? row + width : row;
    for (let x = 0; x < width; x++) {
      const i = row + x;
      const l = x > 0 ? x - 1 : x;
      const r = x < width - 1 ? x + 1 : x;
      const code = codes[i]!;
      const word = words[i]!;
      if (
        word === words[row + l] &&
        word === words[row + r] &&
        word === words[up + l] &&
        word === words[up + x] &&
        word === words[up + r] &&
        word === words[down + l] &&
        word === words[down + x] &&
        word === words[down + r]
      ) {
        cores[i] = (code & LABEL) | SURE;
        continue;
      }
      if (code & FAR) {
        if (isFlat(data, i, row + l, row + r, up + x, down + x, up + l, up + r, down + l, down + r))
          cores[i] = (code & LABEL) | SURE;
        continue;
      }
      const label = code & LABEL;
      const a = codes[up + l]!;
      const b = codes[up + x]!;
      const c = codes[up + r]!;
      const d = codes[row + l]!;
      const e = codes[row + r]!;
      const f = codes[down + l]!;
      const g = codes[down + x]!;
      const h = codes[down + r]!;
      if (code & TIGHT) {
        const n = b === code;
        const s = g === code;
        if (
          (d === code && ((n && a === code) || (s && f === code))) ||
          (e === code && ((n && c === code) || (s && h === code)))
        ) {
          cores[i] = label | SURE;
          continue;
        }
      }
      const near = 0xbf; // FAR and the label, whether tight or not
      const count =
        1 +
        (((a & near) === label ? 1 : 0) +
          ((b & near) === label ? 1 : 0) +
          ((c & near) === label ? 1 : 0) +
          ((d & near) === label ? 1 : 0) +
          ((e & near) === label ? 1 : 0) +
          ((f & near) === label ? 1 : 0) +
          ((g & near) === label ? 1 : 0) +
          ((h & near) === label ? 1 : 0));
      if (count === 9) cores[i] = label | SURE;
      else if (count >= LIKELY_COUNT) cores[i] = label | LIKELY;
    }
  }
  return cores;
}

function isFlat(data: Uint8Array | Uint8ClampedArray, i: number, ...round: number[]): boolean {
  const o = i * 4;
  for (const j of round)
    for (let c = 0; c < 4; c++) if (Math.abs(data[j * 4 + c]! - data[o + c]!) > FLAT_LEVELS) return false;
  return true;
}
