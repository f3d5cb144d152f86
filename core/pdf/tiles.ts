import { filmTrouble } from '../sentences/index.ts';
import { type Box, done, type Outcome } from '../units/index.ts';

/** One sheet's part of a drawing, drawing mm after the turn. */
export interface Tile {
  readonly column: number;
  readonly row: number;
  readonly window: Box;
}

export interface Tiling {
  /** The drawing is turned a quarter, counter-clockwise, because that takes fewer sheets. */
  readonly turned: boolean;
  readonly columns: number;
  readonly rows: number;
  readonly tiles: readonly Tile[];
  /** Middles of the strips that neighbours share. */
  readonly seamsX: readonly number[];
  readonly seamsY: readonly number[];
}

/** mm neighbouring sheets share. */
export const TILE_OVERLAP = 12;

const across = (length: number, room: number) =>
  length <= room ? 1 : Math.ceil((length - TILE_OVERLAP) / (room - TILE_OVERLAP) - 1e-9);

/** A box cut into windows of at most `width` × `height` mm that share a strip; refused when a window is too small. */
export function tilesOf(box: Box, width: number, height: number): Outcome<Tiling> {
  if (!(width > 3 * TILE_OVERLAP && height > 3 * TILE_OVERLAP))
    return filmTrouble.sheetTooSmallForTemplates();
  const upright = across(box.width, width) * across(box.height, height);
  const laid = across(box.height, width) * across(box.width, height);
  const turned = laid < upright;
  // A quarter turn counter-clockwise: (x, y) → (−y, x).
  const b: Box = turned ? { x: -(box.y + box.height), y: box.x, width: box.height, height: box.width } : box;
  const columns = across(b.width, width);
  const rows = across(b.height, height);
  const stepX = width - TILE_OVERLAP;
  const stepY = height - TILE_OVERLAP;
  const tiles: Tile[] = [];
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const x = b.x + column * stepX;
      // Row 0 is the upper one.
      const top = b.y + b.height - row * stepY;
      const w = Math.min(width, b.x + b.width - x);
      const h = Math.min(height, top - b.y);
      tiles.push({ column, row, window: { x, y: top - h, width: w, height: h } });
    }
  return done({
    turned,
    columns,
    rows,
    tiles,
    seamsX: Array.from({ length: columns - 1 }, (_, i) => b.x + (i + 1) * stepX + TILE_OVERLAP / 2),
    seamsY: Array.from({ length: rows - 1 }, (_, i) => b.y + b.height - (i + 1) * stepY - TILE_OVERLAP / 2),
  });
}
