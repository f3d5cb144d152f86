import type { Mask, Plane } from '../../core/raster/index.ts';

const channels = (hex: string) =>
  [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16)) as [number, number, number];

/** One ink alone: its colour as far as the plane covers each point, clear elsewhere. */
export function inkPicture(plane: Plane, hex: string): ImageData {
  const out = new ImageData(plane.width as number, plane.height as number);
  const words = new Uint32Array(out.data.buffer);
  const [r, g, b] = channels(hex);
  const colour = (b << 16) | (g << 8) | r;
  for (let i = 0; i < words.length; i++) words[i] = ((plane.data[i]! << 24) | colour) >>> 0;
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
