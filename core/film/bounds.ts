import type { Box } from '../units/index.ts';
import type { Shape } from './shape.ts';

/** The box that holds shapes, line widths included; null for none. */
export function boundsOf(shapes: readonly Shape[]): Box | null {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const shape of shapes) {
    const half = shape.kind === 'line' ? shape.width / 2 : 0;
    for (const point of shape.points) {
      const x = point[0];
      const y = point[1];
      if (x - half < x0) x0 = x - half;
      if (y - half < y0) y0 = y - half;
      if (x + half > x1) x1 = x + half;
      if (y + half > y1) y1 = y + half;
    }
  }
  return x1 < x0 ? null : { x: x0, y: y0, width: x1 - x0, height: y1 - y0 };
}

/** Do two boxes share an area? */
export const overlap = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
