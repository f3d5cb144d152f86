import type { Px } from '../units/index.ts';
import { blankMask, type Mask } from './mask.ts';
import type { ThresholdTile } from './thresholdTile.ts';

/** The tile as it lies for a plane whose corner is `x` points right of and `y` below the corner the tile begins at. */
export function tileAt(tile: ThresholdTile, x: Px, y: Px): ThresholdTile {
  const { width, height, shift, data } = tile;
  if (x === 0 && y === 0) return tile;
  const moved = new Uint8Array(data.length);
  for (let row = 0; row < height; row++) {
    const down = row + y;
    const turns = Math.floor(down / height);
    const from = (down - turns * height) * width;
    for (let column = 0; column < width; column++) {
      const at = (((column + x + turns * shift) % width) + width) % width;
      moved[row * width + column] = data[from + at]!;
    }
  }
  return { width, height, shift, data: moved };
}

/**
 * Shares of several inks as points of one ink each, by an even grain: the shares are laid end to end in `order`, and each
 * point takes the one its threshold falls in. `planes` hold one byte a point, in sum 255; plane 0 is bare and leaves no ink,
 * plane k inks mask k − 1 of the result. Light to dark makes the smoothest grain. Throws unless `order` names every plane.
 */
export function thresholdShares(
  planes: readonly Uint8Array[],
  width: Px,
  height: Px,
  tile: ThresholdTile,
  order: readonly number[],
): Mask[] {
  if (order.length !== planes.length || new Set(order).size !== planes.length)
    throw new RangeError(`${planes.length} planes need an order of as many, not of ${order.length}.`);
  const out = planes.slice(1).map(() => blankMask(width, height));
  for (let y = 0, i = 0; y < height; y++) {
    const row = (y % tile.height) * tile.width;
    const shift = Math.floor(y / tile.height) * tile.shift;
    for (let x = 0; x < width; x++, i++) {
      const threshold = tile.data[row + ((x + shift) % tile.width)]!;
      let sum = 0;
      let chosen = 0;
      for (const k of order) {
        const share = planes[k]![i]!;
        sum += share;
        if (share > 0 && sum >= threshold) {
          chosen = k;
          break;
        }
      }
      if (chosen === 0) continue;
      const mask = out[chosen - 1]!;
      const word = y * mask.stride + (x >>> 5);
      mask.data[word] = mask.data[word]! | (1 << (x & 31));
    }
  }
  return out;
}
