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

/** Where a mask has ink: black there, clear elsewhere. */
export function maskPicture(mask: Mask): ImageData {
  const width = mask.width as number;
  const out = new ImageData(width, mask.height as number);
  const words = new Uint32Array(out.data.buffer);
  for (let y = 0; y < mask.height; y++)
    for (let x = 0; x < width; x++)
      if ((mask.data[y * mask.stride + (x >> 5)]! >>> (x & 31)) & 1) words[y * width + x] = 0xff000000;
  return out;
}
