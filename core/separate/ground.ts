import { toHex } from '../colour/index.ts';
import type { Picture } from '../raster/index.ts';

/** Encoded levels a border point may differ from the paper and still be paper. */
const PAPER_LEVELS = 12;
/** Share of the border that must be paper: art may run off the sheet somewhere. */
const PAPER_SHARE = 0.9;

/**
 * The paper a picture without transparency was drawn on: the colour of its border when that is even, as #rrggbb; null when the
 * picture has transparent points or an uneven border.
 */
export function groundOf(picture: Picture): string | null {
  const { width, height, data } = picture;
  if (width === 0 || height === 0) return null;
  for (let i = 3; i < data.length; i += 4) if (data[i]! < 250) return null;
  const border: number[] = [];
  for (let x = 0; x < width; x++) border.push(x, (height - 1) * width + x);
  for (let y = 1; y < height - 1; y++) border.push(y * width, y * width + width - 1);
  const counts = new Map<number, number>();
  let most = 0;
  let paper = 0;
  for (const i of border) {
    const colour = (data[i * 4]! << 16) | (data[i * 4 + 1]! << 8) | data[i * 4 + 2]!;
    const n = (counts.get(colour) ?? 0) + 1;
    counts.set(colour, n);
    if (n > most) {
      most = n;
      paper = colour;
    }
  }
  const rgb = [paper >>> 16, (paper >>> 8) & 255, paper & 255] as const;
  let even = 0;
  for (const i of border) if (rgb.every((v, c) => Math.abs(data[i * 4 + c]! - v) <= PAPER_LEVELS)) even++;
  return even >= PAPER_SHARE * border.length ? toHex(rgb) : null;
}
