import { intersect } from './algebra.ts';
import { grow } from './grow.ts';
import { type Mask, signedWords } from './mask.ts';

/**
 * The part of `within` that is reached from `seed` through `within` in at most `steps` steps, to the eight neighbours and
 * to the four nearest ones by turns, eight first. Where nothing stands in the way that holds every point up to `steps` from
 * `seed` (its reach is an octagon about the disc), but behind a gap only what a way of about that length leads to. Sizes
 * must agree; `seed` may lie outside `within`.
 */
export function joinedWithin(seed: Mask, within: Mask, steps: number): Mask {
  const out = intersect(grow(seed, Math.SQRT2), within);
  if (steps < 1) return intersect(seed, within, out);
  const [room, reached] = [signedWords(within), signedWords(out)];
  let open = openWords(room, reached);
  let fresh = new Int32Array(open.length);
  let still = 0;
  // A step to the four may add nothing where one to the eight still does.
  for (let step = 2; step <= steps && still < 2 && open.length > 0; step++) {
    const added = spreadStep(reached, room, open, fresh, within, step % 2 === 1);
    still = added ? 0 : still + 1;
    open = openWords(room, reached, open);
    fresh = fresh.subarray(0, open.length);
  }
  return out;
}

/** Places of the words (of all, or of `among`) with room that is not reached. */
function openWords(room: Int32Array, reached: Int32Array, among?: Int32Array): Int32Array {
  const count = among?.length ?? room.length;
  let n = 0;
  for (let i = 0; i < count; i++) {
    const at = among ? among[i]! : i;
    if (room[at] !== reached[at]) n++;
  }
  const open = new Int32Array(n);
  n = 0;
  for (let i = 0; i < count; i++) {
    const at = among ? among[i]! : i;
    if (room[at] !== reached[at]) open[n++] = at;
  }
  return open;
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
