// The pure points of art: the fast twin of core/separate/cores.ts and uneven.ts, which state what makes a point pure and whose
// constants these are.
import { FAR, LABEL, LIKELY, SURE, TIGHT } from './codes';
import { differRows } from './lookUp';

const LIKELY_COUNT: i32 = 6;
const FLAT_LEVELS: i32 = 5;

/** Whether two words' bytes differ by little each. */
// @ts-expect-error: decorator
@inline
function alike(a: u32, b: u32): bool {
  for (let c: u32 = 0; c < 32; c += 8) {
    const off = <i32>((a >> c) & 255) - <i32>((b >> c) & 255);
    if (off > FLAT_LEVELS || off < -FLAT_LEVELS) return false;
  }
  return true;
}

// @ts-expect-error: decorator
@inline
function code(codes: usize, i: i32): i32 {
  return <i32>load<u8>(codes + <usize>i);
}

// @ts-expect-error: decorator
@inline
function wordAt(words: usize, i: i32): u32 {
  return load<u32>(words + (<usize>i << 2));
}

/** The core of the point in column x, whose row and those above and below begin at the given places. */
function coreAt(words: usize, codes: usize, x: i32, row: i32, up: i32, down: i32, width: i32): i32 {
  const l = x > 0 ? x - 1 : x;
  const r = x < width - 1 ? x + 1 : x;
  const own = code(codes, row + x);
  const label = own & LABEL;
  if ((own & FAR) != 0) {
    const word = wordAt(words, row + x);
    const flat =
      alike(word, wordAt(words, row + l)) &&
      alike(word, wordAt(words, row + r)) &&
      alike(word, wordAt(words, up + x)) &&
      alike(word, wordAt(words, down + x)) &&
      alike(word, wordAt(words, up + l)) &&
      alike(word, wordAt(words, up + r)) &&
      alike(word, wordAt(words, down + l)) &&
      alike(word, wordAt(words, down + r));
    return flat ? label | SURE : 0;
  }
  const a = code(codes, up + l);
  const b = code(codes, up + x);
  const c = code(codes, up + r);
  const d = code(codes, row + l);
  const e = code(codes, row + r);
  const f = code(codes, down + l);
  const g = code(codes, down + x);
  const h = code(codes, down + r);
  if ((own & TIGHT) != 0) {
    const n = b == own;
    const s = g == own;
    if (
      (d == own && ((n && a == own) || (s && f == own))) ||
      (e == own && ((n && c == own) || (s && h == own)))
    )
      return label | SURE;
  }
  const near = 0xbf;
  const count =
    1 +
    <i32>((a & near) == label) +
    <i32>((b & near) == label) +
    <i32>((c & near) == label) +
    <i32>((d & near) == label) +
    <i32>((e & near) == label) +
    <i32>((f & near) == label) +
    <i32>((g & near) == label) +
    <i32>((h & near) == label);
  if (count == 9) return label | SURE;
  return count >= LIKELY_COUNT ? label | LIKELY : 0;
}

/**
 * The cores of `count` rows from `first` on, of the `rows` rows of `width` points that lie in memory: above and below those wanted there is
 * one more, but for the picture's border, which repeats. `right` and `below` are room for a bit a point, rows of `pitch` bytes.
 * Cores go to `cores`, place by place as points lie; the places of those that are not sure, `base` added to each, to `soft`. Returns
 * how many these are. Words must be readable 128 bytes beyond their end, and one row more.
 */
export function pureCores(
  words: usize,
  codes: usize,
  width: i32,
  rows: i32,
  first: i32,
  count: i32,
  base: i32,
  right: usize,
  below: usize,
  pitch: usize,
  cores: usize,
  soft: usize,
): i32 {
  differRows(words, width, rows, right, below, pitch);
  let n = 0;
  for (let y = first; y < first + count; y++) {
    const row = y * width;
    const up = y > 0 ? row - width : row;
    const down = y < rows - 1 ? row + width : row;
    const here = right + <usize>y * pitch;
    const above = y > 0 ? here - pitch : here;
    const under = y < rows - 1 ? here + pitch : here;
    const low = below + <usize>y * pitch;
    let carry: u32 = 0;
    for (let x = 0; x < width; x += 32) {
      const at = <usize>(x >> 3);
      const sideways = load<u32>(above + at) | load<u32>(here + at) | load<u32>(under + at);
      const upright = (y > 0 ? load<u32>(low - pitch + at) : 0) | (y < rows - 1 ? load<u32>(low + at) : 0);
      let bits = sideways | (sideways << 1) | carry | upright;
      carry = sideways >>> 31;
      const from = row + x;
      const end = min(width - x, 32);
      if (bits == 0) {
        // Each point is one word with its neighbours: all of the stretch are one.
        memory.fill(cores + <usize>from, <u8>((code(codes, from) & LABEL) | SURE), <usize>end);
        continue;
      }
      for (let k = 0; k < end; k++)
        store<u8>(cores + <usize>(from + k), <u8>((code(codes, from + k) & LABEL) | SURE));
      for (; bits != 0; bits &= bits - 1) {
        const k = x + <i32>ctz(bits);
        const core = coreAt(words, codes, k, row, up, down, width);
        store<u8>(cores + <usize>(row + k), <u8>core);
        if ((core & SURE) == 0) {
          store<i32>(soft + (<usize>n << 2), row + k + base);
          n++;
        }
      }
    }
  }
  return n;
}
