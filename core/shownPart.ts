import type { Picture } from './raster/index.ts';

/** A rectangle in points of the art as drawn; its sides may fall within a point. */
export interface Part {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** How much of each of `length` points, the first at `from`, lies between `low` and `high`. */
function shares(from: number, length: number, low: number, high: number): Float32Array {
  const out = new Float32Array(length);
  for (let i = 0; i < length; i++)
    out[i] = Math.min(1, Math.max(0, Math.min(high, from + i + 1) - Math.max(low, from + i)));
  return out;
}

/**
 * A window of art, its corner at (x, y) of the art as drawn, with what lies outside `part` transparent and all of it fainter by
 * `opacity` (0 to 1). A point that a side of the part runs through keeps that much of its alpha, so that the cut is as true as a
 * drawn edge. Gives the window itself where there is nothing to take away.
 */
export function shownPart(window: Picture, x: number, y: number, part: Part, opacity: number): Picture {
  const width = window.width as number;
  const height = window.height as number;
  const inside = part.x0 <= x && part.y0 <= y && part.x1 >= x + width && part.y1 >= y + height;
  if (inside && opacity >= 1) return window;
  const across = shares(x, width, part.x0, part.x1);
  const down = shares(y, height, part.y0, part.y1);
  const data = Uint8Array.from(window.data);
  for (let row = 0, at = 3; row < height; row++) {
    const share = (down[row] as number) * opacity;
    for (let column = 0; column < width; column++, at += 4)
      data[at] = Math.round((data[at] as number) * share * (across[column] as number));
  }
  return { width, height, data };
}

/** Makes coverage bare (plane 0 whole, the others none) at every point whose middle lies outside `part`. Changes `planes`. */
export function bareBeyond(planes: readonly Uint8Array[], width: number, height: number, part: Part): void {
  for (let y = 0, i = 0; y < height; y++) {
    const row = y + 0.5 >= part.y0 && y + 0.5 <= part.y1;
    for (let x = 0; x < width; x++, i++) {
      if (row && x + 0.5 >= part.x0 && x + 0.5 <= part.x1) continue;
      planes.forEach((plane, k) => {
        plane[i] = k === 0 ? 255 : 0;
      });
    }
  }
}
