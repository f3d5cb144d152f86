import type { Mask } from '../raster/index.ts';

/**
 * Ink of every column or row in pixels, estimated from every `step`-th row (columns) or counted whole (rows): what a
 * straight cut there would cross. Whole rows and columns of the mask, not of a window.
 */
export function inkCounts(mask: Mask, of: 'columns' | 'rows', step: number): Float64Array {
  const [w, h] = [mask.width as number, mask.height as number];
  const out = new Float64Array(of === 'columns' ? w : h);
  for (let y = 0; y < h; y += of === 'columns' ? step : 1) {
    const row = y * mask.stride;
    for (let i = 0; i < mask.stride; i++) {
      let word = mask.data[row + i]!;
      if (word === 0) continue;
      if (of === 'rows') {
        word = word - ((word >>> 1) & 0x55555555);
        word = (word & 0x33333333) + ((word >>> 2) & 0x33333333);
        out[y]! += (((word + (word >>> 4)) & 0x0f0f0f0f) * 0x01010101) >>> 24;
        continue;
      }
      while (word !== 0) {
        out[i * 32 + 31 - Math.clz32(word & -word)]! += step;
        word = (word & (word - 1)) >>> 0;
      }
    }
  }
  return out;
}
