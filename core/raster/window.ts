import type { Px } from '../units/index.ts';
import { cropFast } from './kernels/cropFast.ts';
import { cropPlain } from './kernels/cropPlain.ts';
import { kernels } from './kernels/load.ts';
import { blankMask, type Mask, signedWords, tailBits } from './mask.ts';

/** Words from which on the kernel is worth its copies. */
const MANY = 1 << 14;

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
  const fast = ((width + 31) >>> 5) * height >= MANY ? kernels() : null;
  if (fast) cropFast(fast, mask, x, y, out);
  else cropPlain(mask, x, y, out);
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
