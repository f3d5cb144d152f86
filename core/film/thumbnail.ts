import { blankMask, type Mask, type PxBox, signedWords } from '../raster/index.ts';

/**
 * A mask, or a window of it that may reach beyond it, `factor` times smaller: a point has ink where any of its block had, so
 * that fine lines stay seen. `factor` is whole, 1 to 32.
 */
export function thumbnail(
  mask: Mask,
  factor: number,
  window: PxBox = { x: 0, y: 0, width: mask.width, height: mask.height },
): Mask {
  const out = blankMask(Math.ceil(window.width / factor), Math.ceil(window.height / factor));
  const words = signedWords(mask);
  const row = new Int32Array(mask.stride + 1);
  const block = -1 >>> (32 - factor);
  const right = Math.min(mask.width, window.x + window.width);
  // The first block that is not wholly left of the mask.
  const first = window.x < 0 ? Math.floor(-window.x / factor) : 0;
  // Its words, and the one after them, which blocks reach into.
  const fromWord = Math.max(0, window.x) >>> 5;
  const toWord = Math.min(mask.stride, (Math.max(0, right) + 31) >>> 5);
  for (let y = 0; y < out.height; y++) {
    const top = Math.max(0, window.y + y * factor);
    const bottom = Math.min(mask.height, window.y + window.height, window.y + (y + 1) * factor);
    if (top >= bottom) continue;
    row.fill(0);
    for (let from = top * mask.stride; from < bottom * mask.stride; from += mask.stride)
      for (let i = fromWord; i < toWord; i++) row[i] = row[i]! | words[from + i]!;
    for (let x = first; x < out.width; x++) {
      const begin = window.x + x * factor;
      if (begin >= right) break;
      const left = Math.max(0, begin);
      const w = left >>> 5;
      if (row[w] === 0 && row[w + 1] === 0) {
        // On to the first block that reaches beyond these two bare words.
        x = Math.max(x, Math.floor(((w + 2) * 32 - factor - window.x) / factor));
        continue;
      }
      const shift = left & 31;
      let ink = row[w]! >>> shift;
      if (shift !== 0) ink |= row[w + 1]! << (32 - shift);
      ink &= block >>> (left - begin);
      const over = begin + factor - right;
      if (over > 0) ink &= block >>> (over + left - begin);
      if (ink !== 0) out.data[y * out.stride + (x >>> 5)]! |= 1 << (x & 31);
    }
  }
  return out;
}
