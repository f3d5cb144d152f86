import { type Mask, signedWords } from '../raster/index.ts';

/**
 * Ink of every column or row in pixels, estimated from every `step`-th row (columns) or counted whole (rows): what a
 * straight cut there would cross. Whole rows and columns of the mask, not of a window.
 */
export const inkCounts = (mask: Mask, of: 'columns' | 'rows', step: number): Float64Array =>
  of === 'columns' ? columnCounts(mask, step) : rowCounts(mask);

function rowCounts({ height, stride, data }: Mask): Float64Array {
  const out = new Float64Array(height as number);
  for (let y = 0; y < out.length; y++) {
    const row = y * stride;
    for (let i = 0; i < stride; i++) {
      let word = data[row + i]!;
      if (word === 0) continue;
      word = word - ((word >>> 1) & 0x55555555);
      word = (word & 0x33333333) + ((word >>> 2) & 0x33333333);
      out[y]! += (((word + (word >>> 4)) & 0x0f0f0f0f) * 0x01010101) >>> 24;
    }
  }
  return out;
}

/** 32 columns are counted at once: their counts lie side by side, each digit of all of them in one word. */
function columnCounts(mask: Mask, step: number): Float64Array {
  const { stride } = mask;
  const [w, h] = [mask.width as number, mask.height as number];
  const words = signedWords(mask);
  const levels = 32 - Math.clz32(Math.ceil(h / step));
  const digits = new Int32Array(levels * stride);
  for (let y = 0; y < h; y += step) {
    const row = y * stride;
    for (let i = 0; i < stride; i++) {
      let carry = words[row + i]!;
      for (let at = i; carry !== 0; at += stride) {
        const digit = digits[at]!;
        digits[at] = digit ^ carry;
        carry &= digit;
      }
    }
  }
  const out = new Float64Array(w);
  for (let x = 0; x < w; x++) {
    let count = 0;
    for (let level = 0; level < levels; level++)
      count |= ((digits[level * stride + (x >> 5)]! >>> (x & 31)) & 1) << level;
    out[x] = count * step;
  }
  return out;
}
