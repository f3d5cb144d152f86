import { type Mask, sameSize, signedWords } from './mask.ts';
import { borrowMask, giveBack } from './spareMasks.ts';

/**
 * Adds to `out`, and returns it, the part of `within` that is reached from `seed` through `within` in at most `steps` steps, to the
 * eight neighbours and to the four nearest ones by turns, eight first. Where nothing stands in the way that holds every point up
 * to `steps` from `seed` (its reach is an octagon about the disc), but behind a gap only what a way of about that length leads
 * to. Sizes must agree; `seed` may lie outside `within`; `out` may be none of the others.
 */
export function addJoinedWithin(seed: Mask, within: Mask, steps: number, out: Mask): Mask {
  sameSize(seed, within);
  sameSize(seed, out);
  const room = signedWords(within);
  const all = inkedWords(room);
  if (all.length === 0) return out;
  const borrowed = borrowMask(within.width, within.height);
  borrowed.data.fill(0);
  const reached = signedWords(borrowed);
  start(signedWords(seed), room, reached, all, within, steps >= 1);
  let open = stillOpen(room, reached, all.slice());
  const fresh = new Int32Array(open.length);
  let still = 0;
  // A step to the four may add nothing where one to the eight still does.
  for (let step = 2; step <= steps && still < 2 && open.length > 0; step++) {
    const added = spreadStep(reached, room, open, fresh, within, step % 2 === 1);
    still = added ? 0 : still + 1;
    open = stillOpen(room, reached, open);
  }
  const o = signedWords(out);
  for (let i = 0; i < all.length; i++) o[all[i]!] = o[all[i]!]! | reached[all[i]!]!;
  giveBack(borrowed);
  return out;
}

/** Places of the words that have ink. */
function inkedWords(words: Int32Array): Int32Array {
  let list = new Int32Array(4096);
  let n = 0;
  for (let i = 0; i < words.length; i++) {
    if (words[i] === 0) continue;
    if (n === list.length) {
      const longer = new Int32Array(2 * n);
      longer.set(list);
      list = longer;
    }
    list[n++] = i;
  }
  return list.subarray(0, n);
}

/** What the seed itself covers or, when it may take a first `step`, touches. */
function start(
  seed: Int32Array,
  room: Int32Array,
  reached: Int32Array,
  places: Int32Array,
  { width, height, stride }: Mask,
  step: boolean,
): void {
  const used = (width + 31) >>> 5;
  for (let i = 0; i < places.length; i++) {
    const at = places[i]!;
    let near = seed[at]!;
    if (step) {
      const y = (at / stride) | 0;
      const w = at - y * stride;
      const [first, last] = [w === 0, w === used - 1];
      near = sideways(seed, at, first, last);
      if (y > 0) near |= sideways(seed, at - stride, first, last);
      if (y + 1 < height) near |= sideways(seed, at + stride, first, last);
    }
    reached[at] = near & room[at]!;
  }
}

/** Those of the listed words with room that is not reached; the list is written over. */
function stillOpen(room: Int32Array, reached: Int32Array, among: Int32Array): Int32Array {
  let n = 0;
  for (let i = 0; i < among.length; i++) {
    const at = among[i]!;
    if (room[at] !== reached[at]) among[n++] = at;
  }
  return among.subarray(0, n);
}

/** One step in the open words, all from what was reached before it; whether it added anything. `fresh` is scratch. */
function spreadStep(
  reached: Int32Array,
  room: Int32Array,
  open: Int32Array,
  fresh: Int32Array,
  { width, height, stride }: Mask,
  diagonals: boolean,
): boolean {
  const used = (width + 31) >>> 5;
  let any = 0;
  for (let i = 0; i < open.length; i++) {
    const at = open[i]!;
    const y = (at / stride) | 0;
    const w = at - y * stride;
    const [first, last] = [w === 0, w === used - 1];
    let near = sideways(reached, at, first, last);
    if (y > 0) near |= diagonals ? sideways(reached, at - stride, first, last) : reached[at - stride]!;
    if (y + 1 < height)
      near |= diagonals ? sideways(reached, at + stride, first, last) : reached[at + stride]!;
    fresh[i] = near & room[at]!;
    any |= fresh[i]! & ~reached[at]!;
  }
  for (let i = 0; i < open.length; i++) reached[open[i]!] = fresh[i]!;
  return any !== 0;
}

/** A word with its points' neighbours in the same row. */
function sideways(words: Int32Array, at: number, first: boolean, last: boolean): number {
  const here = words[at]!;
  const before = first ? 0 : words[at - 1]! >>> 31;
  const after = last ? 0 : words[at + 1]! << 31;
  return here | (here << 1) | (here >>> 1) | before | after;
}
