import type { Px } from '../units/index.ts';

/** One byte a point, rows from the top, no padding. */
export interface Plane {
  readonly width: Px;
  readonly height: Px;
  readonly data: Uint8Array;
}

/** A plane of zeros. */
export const blankPlane = (width: Px, height: Px): Plane => ({
  width,
  height,
  data: new Uint8Array(width * height),
});
