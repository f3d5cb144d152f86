import type { Px } from '../units/index.ts';

/** sRGB with straight (not premultiplied) alpha, four bytes a point, rows from the top, no padding. */
export interface Picture {
  readonly width: Px;
  readonly height: Px;
  readonly data: Uint8Array | Uint8ClampedArray;
}
