import type { Px } from '../units/index.ts';

/**
 * How much of each point each ink covers. `planes[0]` is bare (no ink); `planes[i + 1]` is ink i of the palette it was
 * made with. At every point the planes sum to 255. Rows from the top.
 */
export interface Coverage {
  readonly width: Px;
  readonly height: Px;
  readonly planes: readonly Uint8Array[];
}
