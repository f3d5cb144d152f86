import { pureCores } from '../raster/index.ts';
import type { Px } from '../units/index.ts';
import { FAR, LABEL, TIGHT } from './labels.ts';
import { unevenPoints } from './uneven.ts';
import type { Workspace } from './workspace.ts';

/** A core's byte is its label and one of these; 0 is no core. Labels are 6 bits, so both fit. */
export const SURE = 0x80;
/** Enough neighbours agree to be evidence of the label, not enough to be settled. */
export const LIKELY = 0x40;

/** Points of 9 that must be near one label to make its middle likely: a line two points wide has 6, a soft edge 3. */
const LIKELY_COUNT = 6;
/** Encoded levels between neighbours within which a colour that is near no ink still counts as one flat area. */
const FLAT_LEVELS = 5;

/** The cores of a window, and where there is none that is sure: the points that are looked at one by one. */
export interface Cores {
  readonly cores: Uint8Array;
  /** Places of the points without a sure core, ascending. */
  readonly soft: Int32Array;
}

/**
 * Finds the pure points. A point is sure of its label when all nine points about it are near that label, when it lies in a
 * 2 × 2 block of exactly that label's colour, or when the nine are one flat colour that no ink is near (`FAR`: the nearest
 * ink has it). A soft edge is one point wide and has neither. Points beyond the picture's border repeat the border. `words` are the
 * picture's own, as `wordsOf` gives them.
 */
export function coresOf(
  words: Int32Array,
  codes: Uint8Array,
  width: Px,
  height: Px,
  space: Workspace,
): Cores {
  const cores = space.bytes('cores', width * height);
  let soft = space.words('soft', Math.max(1024, (width * height) >> 5));
  let count = 0;
  const found = (places: Int32Array) => {
    while (count + places.length > soft.length) soft = longer(soft, space);
    soft.set(places, count);
    count += places.length;
  };
  if (!pureCores(words, codes, width, height, cores, found))
    return coresPlain(words, codes, width, height, space);
  return { cores, soft: soft.subarray(0, count) };
}

/** The readable definition of `coresOf`. */
export function coresPlain(
  words: Int32Array,
  codes: Uint8Array,
  width: Px,
  height: Px,
  space: Workspace,
): Cores {
  const uneven = unevenPoints(words, width, height, space);
  const data = new Uint8Array(words.buffer, words.byteOffset, 4 * words.length);
  const cores = space.bytes('cores', width * height);
  let soft = space.words('soft', Math.max(1024, (width * height) >> 5));
  let softCount = 0;
  const stride = (width + 31) >>> 5;
  for (let y = 0; y < height; y++) {
    const row = y * width;
    const up = y > 0 ? row - width : row;
    const down = y < height - 1 ? row + width : row;
    for (let w = 0; w < stride; w++) {
      const first = row + w * 32;
      let bits = uneven[y * stride + w]!;
      if (bits === 0) {
        // Each point is one word with its neighbours: all of the stretch are one.
        const code = codes[first]!;
        while (w + 1 < stride && uneven[y * stride + w + 1] === 0 && codes[row + (w + 1) * 32] === code) w++;
        cores.fill((code & LABEL) | SURE, first, Math.min(row + width, row + (w + 1) * 32));
        continue;
      }
      const end = Math.min(row + width, first + 32);
      for (let i = first; i < end; i++) cores[i] = (codes[i]! & LABEL) | SURE;
      if (softCount + 32 > soft.length) soft = longer(soft, space);
      for (; bits !== 0; bits &= bits - 1) {
        const i = first + 31 - Math.clz32(bits & -bits);
        const core = coreAt(codes, data, i, i - row, row, up, down, width);
        cores[i] = core;
        if ((core & SURE) === 0) soft[softCount++] = i;
      }
    }
  }
  return { cores, soft: soft.subarray(0, softCount) };
}

/** The same list with twice the room. */
function longer(list: Int32Array, space: Workspace): Int32Array {
  const kept = list.slice();
  const wider = space.words('soft', 2 * list.length);
  wider.set(kept);
  return wider;
}

/** The core of point i in column x, whose row and those above and below begin at the given places. */
function coreAt(
  codes: Uint8Array,
  data: Uint8Array | Uint8ClampedArray,
  i: number,
  x: number,
  row: number,
  up: number,
  down: number,
  width: number,
): number {
  const l = x > 0 ? x - 1 : x;
  const r = x < width - 1 ? x + 1 : x;
  const code = codes[i]!;
  const label = code & LABEL;
  if (code & FAR)
    return isFlat(data, i, row + l, row + r, up + x, down + x, up + l, up + r, down + l, down + r)
      ? label | SURE
      : 0;
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
    )
      return label | SURE;
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
  if (count === 9) return label | SURE;
  return count >= LIKELY_COUNT ? label | LIKELY : 0;
}

/** Whether the point differs little from each of the eight about it. */
function isFlat(data: Uint8Array | Uint8ClampedArray, i: number, ...round: number[]): boolean {
  const o = i * 4;
  for (const j of round)
    for (let c = 0; c < 4; c++) if (Math.abs(data[j * 4 + c]! - data[o + c]!) > FLAT_LEVELS) return false;
  return true;
}
