import { blankMask, type Mask } from '../raster/index.ts';

/** A mask `factor` times smaller: a point has ink where any of its block had, so that fine lines stay seen. */
export function thumbnail(mask: Mask, factor: number): Mask {
  if (factor <= 1) return mask;
  const out = blankMask(
    Math.ceil((mask.width as number) / factor),
    Math.ceil((mask.height as number) / factor),
  );
  const row = new Uint32Array(mask.stride);
  for (let y = 0; y < (out.height as number); y++) {
    row.fill(0);
    const last = Math.min(mask.height as number, (y + 1) * factor);
    for (let from = y * factor; from < last; from++) {
      for (let i = 0; i < mask.stride; i++) row[i]! |= mask.data[from * mask.stride + i]!;
    }
    for (let i = 0; i < mask.stride; i++) {
      let word = row[i]!;
      while (word !== 0) {
        const x = Math.floor((i * 32 + 31 - Math.clz32(word & -word)) / factor);
        out.data[y * out.stride + (x >> 5)]! |= 1 << (x & 31);
        word = (word & (word - 1)) >>> 0;
      }
    }
  }
  return out;
}
