import type { Mask } from '../../core/raster/index.ts';

const channels = (hex: string) =>
  [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16)) as [number, number, number];

/** One ink alone: its colour where the mask has ink, clear elsewhere. */
export function inkPicture(mask: Mask, hex: string): ImageData {
  const { width, height, stride, data } = mask;
  const out = new ImageData(width as number, height as number);
  const words = new Uint32Array(out.data.buffer);
  const [r, g, b] = channels(hex);
  const colour = ((255 << 24) | (b << 16) | (g << 8) | r) >>> 0;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      if ((data[y * stride + (x >> 5)]! >>> (x & 31)) & 1) words[y * (width as number) + x] = colour;
  return out;
}

/** Where a print goes beyond its separation: black there, clear elsewhere. */
export function spreadPicture(print: Mask, separation: Mask): ImageData {
  const width = print.width as number;
  const out = new ImageData(width, print.height as number);
  const words = new Uint32Array(out.data.buffer);
  for (let y = 0; y < print.height; y++)
    for (let x = 0; x < width; x++) {
      const at = y * print.stride + (x >> 5);
      if (((print.data[at]! & ~separation.data[at]!) >>> (x & 31)) & 1) words[y * width + x] = 0xff000000;
    }
  return out;
}

/** Points of a mask that have ink. */
export function inked(mask: Mask): number {
  let n = 0;
  for (const word of mask.data) {
    let v = word - ((word >>> 1) & 0x55555555);
    v = (v & 0x33333333) + ((v >>> 2) & 0x33333333);
    n += Math.imul((v + (v >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
  }
  return n;
}
