import type { Px } from '../units/index.ts';

/** Rows `y` to `y + rows` of a mask. */
export interface Band {
  readonly y: Px;
  readonly rows: Px;
}
