import { clipFast } from './kernels/clipFast.ts';
import { kernels } from './kernels/load.ts';
import { blankLike, type Mask, sameSize, signedWords, tailBits } from './mask.ts';

/** Ink where either same-sized mask has ink; `out` may be `a` or `b`. */
export function union(a: Mask, b: Mask, out: Mask = blankLike(a)): Mask {
  sameSize(a, b);
  sameSize(a, out);
  const [p, q, o] = [signedWords(a), signedWords(b), signedWords(out)];
  // In its own place a mask is written only where it changes: bare memory need not be there.
  if (a === out) {
    for (let i = 0; i < o.length; i++) if (q[i] !== 0) o[i] = o[i]! | q[i]!;
  } else for (let i = 0; i < o.length; i++) o[i] = p[i]! | q[i]!;
  return out;
}

/** Ink where both same-sized masks have ink; `out` may be `a` or `b`. */
export function intersect(a: Mask, b: Mask, out: Mask = blankLike(a)): Mask {
  sameSize(a, b);
  sameSize(a, out);
  const fast = a === out ? kernels() : null;
  if (fast) {
    clipFast(fast, a, b);
    return out;
  }
  const [p, q, o] = [signedWords(a), signedWords(b), signedWords(out)];
  if (a === out) {
    for (let i = 0; i < o.length; i++) if (o[i] !== 0 && (o[i]! & ~q[i]!) !== 0) o[i] = o[i]! & q[i]!;
  } else for (let i = 0; i < o.length; i++) o[i] = p[i]! & q[i]!;
  return out;
}

/** Ink where `a` has ink and `b` has none; `out` may be `a` or `b`. */
export function subtract(a: Mask, b: Mask, out: Mask = blankLike(a)): Mask {
  sameSize(a, b);
  sameSize(a, out);
  const [p, q, o] = [signedWords(a), signedWords(b), signedWords(out)];
  for (let i = 0; i < o.length; i++) o[i] = p[i]! & ~q[i]!;
  return out;
}

/** Ink where the mask has none, within its own width and height; `out` may be `mask`. */
export function complement(mask: Mask, out: Mask = blankLike(mask)): Mask {
  sameSize(mask, out);
  const [p, o] = [signedWords(mask), signedWords(out)];
  const used = (mask.width + 31) >>> 5;
  const tail = tailBits(mask.width);
  for (let y = 0; y < mask.height; y++) {
    const row = y * mask.stride;
    for (let w = 0; w < used; w++) o[row + w] = ~p[row + w]!;
    if (used > 0) o[row + used - 1] = o[row + used - 1]! & tail;
  }
  return out;
}
