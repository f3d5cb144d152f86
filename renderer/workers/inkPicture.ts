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

/** Six line directions, so that neighbouring inks' hatches differ by pattern as well as colour. */
const hatched = (x: number, y: number, kind: number): boolean => {
  switch (kind % 6) {
    case 0:
      return ((x + y) & 3) < 2;
    case 1:
      return ((x - y) & 3) < 2;
    case 2:
      return (y & 3) < 2;
    case 3:
      return (x & 3) < 2;
    case 4:
      return (x & 3) < 2 && (y & 3) < 2;
    default:
      return (x & 3) < 2 || (y & 3) < 2;
  }
};

/** Draws into `out` where a print goes beyond its separation (a spread), hatched in the ink's colour. */
export function hatchSpread(out: ImageData, print: Mask, separation: Mask, hex: string, kind: number): void {
  const words = new Uint32Array(out.data.buffer);
  const [r, g, b] = channels(hex);
  const colour = ((255 << 24) | (b << 16) | (g << 8) | r) >>> 0;
  const between = 0xffffffff;
  const width = print.width as number;
  for (let y = 0; y < print.height; y++)
    for (let x = 0; x < width; x++) {
      const at = y * print.stride + (x >> 5);
      if (((print.data[at]! & ~separation.data[at]!) >>> (x & 31)) & 1)
        words[y * width + x] = hatched(x, y, kind) ? colour : between;
    }
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
