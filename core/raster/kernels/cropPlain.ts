import type { Px } from '../../units/index.ts';
import { type Mask, signedWords, tailBits } from '../mask.ts';

/** The readable definition of `crop`: the window from (x, y) into the blank mask `out`, whose size it has. */
export function cropPlain(mask: Mask, x: Px, y: Px, out: Mask): void {
  const to = signedWords(out);
  const from = signedWords(mask);
  const used = (out.width + 31) >>> 5;
  const sourceUsed = (mask.width + 31) >>> 5;
  const tail = tailBits(out.width);
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
  for (let row = Math.max(0, -y); row < out.height && row + y < mask.height; row++) {
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
}
