import { blankMask, type Mask, setBit } from '../raster/index.ts';
import type { Px } from '../units/index.ts';

/** A square mask `sizePx` a side with a disc of `radiusPx` round its middle point. */
export function discMask(sizePx: Px, radiusPx: Px): Mask {
  const mask = blankMask(sizePx, sizePx);
  const middle = (sizePx - 1) / 2;
  for (let y = 0; y < sizePx; y++)
    for (let x = 0; x < sizePx; x++)
      if ((x - middle) ** 2 + (y - middle) ** 2 <= radiusPx * radiusPx) setBit(mask, x, y);
  return mask;
}
