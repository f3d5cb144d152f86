import { erasePiece, getBit, type Mask, smallPieces } from '../raster/index.ts';
import type { Px } from '../units/index.ts';

/**
 * Of the disc as wide as the narrowest line: pieces with less are crumbs that the rule leaves in the tips of corners, for
 * it keeps every dot and line about that wide.
 */
const CRUMB = 0.7;
/** Points; a crumb even where the mesh is said to hold anything. */
const LEAST_CRUMB = 4;

/**
 * Takes from `drawn`, which is the ink of `parts` together drawn in by the rule of `chokeInk`, the crumbs that the rule leaves in
 * the tips of corners: pieces too small for a mesh that holds lines of `narrowestPx`. Where the parts' own piece is no larger, it stays.
 */
export function dropCrumbs(drawn: Mask, parts: readonly Mask[], narrowestPx: Px): void {
  const areaPx = Math.max(LEAST_CRUMB, (CRUMB * Math.PI * narrowestPx ** 2) / 4);
  for (const { x, y } of smallPieces(drawn, areaPx))
    if (reaches(parts, x, y, areaPx)) erasePiece(drawn, x, y);
}

/** Whether the 8-connected piece of ink of all parts together that holds (x, y) has at least `area` points. */
function reaches(parts: readonly Mask[], x: Px, y: Px, area: number): boolean {
  const { width } = parts[0]!;
  const seen = new Set<number>([y * width + x]);
  // A set is walked in the order of its growth.
  for (const at of seen) {
    if (seen.size >= area) return true;
    const [px, py] = [at % width, Math.floor(at / width)];
    for (let ny = py - 1; ny <= py + 1; ny++)
      for (let nx = px - 1; nx <= px + 1; nx++)
        if (parts.some((mask) => getBit(mask, nx, ny))) seen.add(ny * width + nx);
  }
  return seen.size >= area;
}
