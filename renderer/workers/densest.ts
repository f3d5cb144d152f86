import type { Mask } from '../../core/raster/index.ts';
import type { Box } from '../../core/units/index.ts';

/** mm a side of the squares that are weighed against each other: about what a close look shows at once. */
const CELL = 30;
/** Places that are worth a look. */
const MOST = 12;

/** Where a mask over `box` (surface mm, row 0 the top) has most points: middles of the ink in each square, fullest first. */
export function densest(mask: Mask, box: Box): { s: number; t: number }[] {
  const perMm = (mask.width as number) / box.width;
  const columns = Math.max(1, Math.ceil(box.width / CELL));
  const rows = Math.max(1, Math.ceil(box.height / CELL));
  const cells = Array.from({ length: columns * rows }, () => ({ count: 0, x: 0, y: 0 }));
  const used = (mask.width + 31) >>> 5;
  for (let y = 0; y < mask.height; y++) {
    const row = Math.min(rows - 1, Math.floor(y / perMm / CELL)) * columns;
    for (let w = 0; w < used; w++) {
      let bits = mask.data[y * mask.stride + w]! | 0;
      while (bits !== 0) {
        const x = w * 32 + 31 - Math.clz32(bits & -bits);
        bits &= bits - 1;
        const cell = cells[row + Math.min(columns - 1, Math.floor(x / perMm / CELL))]!;
        cell.count++;
        cell.x += x + 0.5;
        cell.y += y + 0.5;
      }
    }
  }
  return cells
    .filter((cell) => cell.count > 0)
    .sort((a, b) => b.count - a.count)
    .slice(0, MOST)
    .map(({ count, x, y }) => ({
      s: box.x + x / count / perMm,
      t: box.y + box.height - y / count / perMm,
    }));
}
