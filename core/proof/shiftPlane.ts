import { blankPlane, type Plane } from '../raster/index.ts';
import type { Px, Rad } from '../units/index.ts';

/**
 * The plane as a pull out of register lays it down: turned by `turn` about its middle, clockwise as seen, then moved by
 * (dx, dy) points, +x right and +y down, whole or not. Bilinear; what comes from outside is 0.
 */
export function shiftPlane(plane: Plane, dx: Px, dy: Px, turn: Rad = 0): Plane {
  const { width, height, data } = plane;
  const out = blankPlane(width, height);
  const cos = Math.cos(turn as number);
  const sin = Math.sin(turn as number);
  const midX = (width - 1) / 2;
  const midY = (height - 1) / 2;
  const at = (x: number, y: number) =>
    x < 0 || y < 0 || x >= width || y >= height ? 0 : data[y * width + x]!;
  for (let y = 0; y < height; y++) {
    const v = y - midY - dy;
    for (let x = 0; x < width; x++) {
      const u = x - midX - dx;
      const sx = midX + u * cos + v * sin;
      const sy = midY - u * sin + v * cos;
      const x0 = Math.floor(sx);
      const y0 = Math.floor(sy);
      if (x0 < -1 || y0 < -1 || x0 >= width || y0 >= height) continue;
      const fx = sx - x0;
      const fy = sy - y0;
      const top = at(x0, y0) * (1 - fx) + at(x0 + 1, y0) * fx;
      const bottom = at(x0, y0 + 1) * (1 - fx) + at(x0 + 1, y0 + 1) * fx;
      out.data[y * width + x] = Math.round(top * (1 - fy) + bottom * fy);
    }
  }
  return out;
}
