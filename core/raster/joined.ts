import { blankLike, type Mask, sameSize, signedWords } from './mask.ts';

/** All of the runs of `w` that `s` (inside `w`) touches, within one word. (Kogge–Stone fill, both directions.) */
function fillWord(s: number, w: number): number {
  let up = s;
  let p = w;
  up |= p & (up << 1);
  p &= p << 1;
  up |= p & (up << 2);
  p &= p << 2;
  up |= p & (up << 4);
  p &= p << 4;
  up |= p & (up << 8);
  p &= p << 8;
  up |= p & (up << 16);
  let down = s;
  p = w;
  down |= p & (down >>> 1);
  p &= p >>> 1;
  down |= p & (down >>> 2);
  p &= p >>> 2;
  down |= p & (down >>> 4);
  p &= p >>> 4;
  down |= p & (down >>> 8);
  p &= p >>> 8;
  down |= p & (down >>> 16);
  return up | down;
}

/** Word i of three rows around row y, of seed and result together. */
function around(
  s: Int32Array,
  o: Int32Array,
  row: number,
  y: number,
  height: number,
  stride: number,
  i: number,
): number {
  const at = row + i;
  let word = s[at]! | o[at]!;
  if (y > 0) word |= s[at - stride]! | o[at - stride]!;
  if (y + 1 < height) word |= s[at + stride]! | o[at + stride]!;
  return word;
}

/**
 * Adds to row y of `o` the runs of `w` that touch seed or result in this row or its neighbours; true when the row changed.
 * `start` is scratch for a row of words.
 */
function addRow(
  s: Int32Array,
  w: Int32Array,
  o: Int32Array,
  start: Int32Array,
  y: number,
  height: number,
  stride: number,
  words: number,
): boolean {
  const row = y * stride;
  let any = 0;
  // Place of the word whose neighbourhood `after` holds: words with room often come in a row, and most have none.
  let ahead = -1;
  let here = 0;
  let after = 0;
  for (let i = 0; i < words; i++) {
    const room = w[row + i]! & ~o[row + i]!;
    if (room === 0) {
      start[i] = 0;
      continue;
    }
    let before: number;
    if (ahead === i) {
      before = here;
      here = after;
    } else {
      before = i > 0 ? around(s, o, row, y, height, stride, i - 1) : 0;
      here = around(s, o, row, y, height, stride, i);
    }
    after = i + 1 < words ? around(s, o, row, y, height, stride, i + 1) : 0;
    ahead = i + 1;
    const near = here | (here << 1) | (here >>> 1) | (before >>> 31) | (after << 31);
    const fresh = near & room;
    start[i] = fresh;
    any |= fresh;
  }
  if (any === 0) return false;
  let carry = 0;
  for (let i = 0; i < words; i++) {
    const room = w[row + i]!;
    const from = start[i]! | (carry & room);
    if (from === 0) {
      carry = 0;
      continue;
    }
    const filled = fillWord(from, room);
    o[row + i] = o[row + i]! | filled;
    carry = filled >>> 31;
  }
  carry = 0;
  for (let i = words - 1; i >= 0; i--) {
    const from = carry & w[row + i]!;
    if (from !== 0) o[row + i] = o[row + i]! | fillWord(from, w[row + i]!);
    carry = o[row + i]! << 31;
  }
  return true;
}

/**
 * The part of `within` that is 8-connected to `seed` through `within`. `seed` may lie outside `within`: points of `within`
 * that overlap or touch (8-neighbours) a point of `seed` start it. Sizes must agree. Sweeps over packed words, down
 * and up, until nothing is added; only rows whose neighbours changed are looked at again.
 */
export function joined(seed: Mask, within: Mask): Mask {
  sameSize(seed, within);
  const out = blankLike(within);
  const { height, stride } = within;
  const words = (within.width + 31) >>> 5;
  if (words === 0) return out;
  const [s, w, o] = [signedWords(seed), signedWords(within), signedWords(out)];
  const start = new Int32Array(words);
  // 1: this row must be looked at in the sweep under way or the next one.
  const waiting = new Uint8Array(height).fill(1);
  for (let more = true, down = true; more || !down; down = !down) {
    if (down) more = false;
    for (let n = 0; n < height; n++) {
      const y = down ? n : height - 1 - n;
      if (waiting[y] === 0) continue;
      waiting[y] = 0;
      if (!addRow(s, w, o, start, y, height, stride, words)) continue;
      more = true;
      if (y > 0) waiting[y - 1] = 1;
      if (y + 1 < height) waiting[y + 1] = 1;
    }
  }
  return out;
}
