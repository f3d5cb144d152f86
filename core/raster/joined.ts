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
  const [s, w, o] = [signedWords(seed), signedWords(within), signedWords(out)];
  // 1: this row must be looked at in the sweep under way or the next one.
  const waiting = new Uint8Array(height).fill(1);
  const start = new Int32Array(words);

  /** Adds to row y what its neighbours start; true when the row changed. */
  const addRow = (y: number): boolean => {
    const row = y * stride;
    let any = 0;
    // Everything that touches: three rows of seed and result, grown by one point sideways, inside `within`.
    let before = 0;
    let here = touching(row, y, 0);
    for (let i = 0; i < words; i++) {
      const after = i + 1 < words ? touching(row, y, i + 1) : 0;
      const near = here | (here << 1) | (here >>> 1) | (before >>> 31) | (after << 31);
      const fresh = near & w[row + i]! & ~o[row + i]!;
      start[i] = fresh;
      any |= fresh;
      before = here;
      here = after;
    }
    if (any === 0) return false;
    let carry = 0;
    for (let i = 0; i < words; i++) {
      const room = w[row + i]!;
      const from = start[i]! | (carry & room);
      const filled = from === 0 ? 0 : fillWord(from, room);
      if (filled !== 0) o[row + i] = o[row + i]! | filled;
      carry = filled >>> 31;
    }
    carry = 0;
    for (let i = words - 1; i >= 0; i--) {
      const room = w[row + i]!;
      if ((carry & room) !== 0) o[row + i] = o[row + i]! | fillWord(carry & room, room);
      carry = o[row + i]! << 31;
    }
    return true;
  };
  const touching = (row: number, y: number, i: number): number => {
    let word = s[row + i]! | o[row + i]!;
    if (y > 0) word |= s[row - stride + i]! | o[row - stride + i]!;
    if (y + 1 < height) word |= s[row + stride + i]! | o[row + stride + i]!;
    return word;
  };
  const visit = (y: number): boolean => {
    if (waiting[y] === 0) return false;
    waiting[y] = 0;
    if (!addRow(y)) return false;
    if (y > 0) waiting[y - 1] = 1;
    if (y + 1 < height) waiting[y + 1] = 1;
    return true;
  };
  if (words === 0) return out;
  for (let more = true; more; ) {
    more = false;
    for (let y = 0; y < height; y++) if (visit(y)) more = true;
    for (let y = height - 1; y >= 0; y--) if (visit(y)) more = true;
  }
  return out;
}
