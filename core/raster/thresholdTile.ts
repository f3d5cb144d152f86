import type { Px } from '../units/index.ts';

/**
 * Thresholds that repeat over the plane: a tile of `width` × `height`, values 1 to 255, rows from the top. Below it the same
 * tile follows moved `shift` points to the left, as bricks in a wall, so that tilted screens need little room.
 */
export interface ThresholdTile {
  readonly width: Px;
  readonly height: Px;
  readonly shift: Px;
  readonly data: Uint8Array;
}
