import { type Mask, signedWords } from '../mask.ts';
import type { PxBox } from '../measure.ts';

/** The readable definition of `thumbnail`: into the blank mask `out`, which has a point for each square of the window. */
export function thumbnailPlain(mask: Mask, factor: number, window: PxBox, out: Mask): void {
  const words = signedWords(mask);
  const [fromX, toX] = [Math.max(0, window.x), Math.min(mask.width, window.x + window.width)];
  const [fromY, toY] = [Math.max(0, window.y), Math.min(mask.height, window.y + window.height)];
  for (let y = fromY; y < toY; y++) {
    const row = y * mask.stride;
    const to = Math.floor((y - window.y) / factor) * out.stride;
    for (let x = fromX; x < toX; x++) {
      if (((words[row + (x >>> 5)]! >>> (x & 31)) & 1) === 0) continue;
      const p = Math.floor((x - window.x) / factor);
      out.data[to + (p >>> 5)]! |= 1 << (p & 31);
    }
  }
}
