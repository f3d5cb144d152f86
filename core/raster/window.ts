import type { Px } from '../units/index.ts';
import { blankMask, type Mask, signedWords, tailBits } from './mask.ts';

/**
 * The part of the mask from (x, y), `width` × `height` points, as a mask of its own. The window may reach beyond the
 * mask on any side; there it is bare. `make` gives it blank.
 */
export function crop(
  mask: Mask,
  x: Px,
  y: Px,
  width: Px,
  height: Px,
  make: (width: Px, height: Px) => Mask = blankMask,
): Mask {
  const out = make(width, height);
  const to = signedWords(out);
  const from = signedWords(mask);
  const used = (width + 31) >>> 5;
  const sourceUsed = (mask.width + 31) >>> 5;
  const tail = tailBits(width);
  const first = x >> 5;
  const shift = x & 31;
  // Words that are made of two words of the mask; at its borders one of the two may be missing.
  const inner = Math.min(used, Math.max(0, -first));
  const outer = Math.min(used, Math.max(inner, sourceUsed - 1 - first));
  let source = 0;
  let target = 0;
  const wordAt = (at: number): number => (at >= 0 && at < sourceUsed ? from[source + at]! : 0);
  const atBorder = (w: number) => {
    const low = wordAt(first + w) >>> shift;
    to[target + w] = shift === 0 ? low : low | (wordAt(first + w + 1) << (32 - shift));
  };
  for (let row = Math.max(0, -y); row < height && row + y < mask.height; row++) {
    source = (row + y) * mask.stride;
    target = row * out.stride;
    for (let w = 0; w < inner; w++) atBorder(w);
    if (shift === 0) to.set(from.subarray(source + first + inner, source + first + outer), target + inner);
    else {
      let word = from[source + first + inner]!;
      for (let w = inner; w < outer; w++) {
        const next = from[source + first + w + 1]!;
        to[target + w] = (word >>> shift) | (next << (32 - shift));
        word = next;
      }
    }
    for (let w = outer; w < used; w++) atBorder(w);
    if (used > 0) to[target + used - 1] = to[target + used - 1]! & tail;
  }
  return out;
}

/** Adds the ink of `from` to `into` with its top left point at (x, y) of `into`; parts beyond `into` are cut off. */
export function paste(into: Mask, from: Mask, x: Px, y: Px): Mask {
  const to = signedWords(into);
  const source = signedWords(from);
  const used = (into.width + 31) >>> 5;
  const sourceUsed = (from.width + 31) >>> 5;
  const tail = tailBits(into.width);
  const first = x >> 5;
  const shift = x & 31;
  for (let row = Math.max(0, -y); row < from.height && row + y < into.height; row++) {
    const target = (row + y) * into.stride;
    const start = row * from.stride;
    for (let w = 0; w < sourceUsed; w++) {
      const word = source[start + w]!;
      if (word === 0) continue;
      const at = first + w;
      if (at >= 0 && at < used) to[target + at] = to[target + at]! | (word << shift);
      if (shift !== 0 && at + 1 >= 0 && at + 1 < used)
        to[target + at + 1] = to[target + at + 1]! | (word >>> (32 - shift));
    }
    if (used > 0) to[target + used - 1] = to[target + used - 1]! & tail;
  }
  return into;
}
