import { type Component, components, type Mask } from '../raster/index.ts';
import { pxPerMm } from '../units/index.ts';
import type { FaceFacts } from './input.ts';

/** The centre of raster point (x, y) on the face's surface, mm. */
export function surfaceOf(facts: FaceFacts, x: number, y: number): { s: number; t: number } {
  const scale = pxPerMm(facts.dpi);
  return { s: facts.box.x + (x + 0.5) / scale, t: facts.box.y + facts.box.height - (y + 0.5) / scale };
}

/** Where a mask's ink lies: how many pieces, the one with the largest area, a point of it on the surface, areas in mm². */
export interface Spots {
  readonly count: number;
  readonly at: { readonly s: number; readonly t: number };
  readonly areaMm2: number;
  readonly largestMm2: number;
  /** Diagonal of the largest piece's box, mm. */
  readonly longestMm: number;
}

/** Pieces of at least `leastPx` points; null when there is none. */
export function spotsOf(facts: FaceFacts, mask: Mask, leastPx = 1): Spots | null {
  let largest: Component | null = null;
  let count = 0;
  let area = 0;
  for (const piece of components(mask)) {
    if (piece.area < leastPx) continue;
    count++;
    area += piece.area;
    if (!largest || piece.area > largest.area) largest = piece;
  }
  if (!largest) return null;
  const scale = pxPerMm(facts.dpi);
  return {
    count,
    at: surfaceOf(facts, largest.x, largest.y),
    areaMm2: area / scale / scale,
    largestMm2: largest.area / scale / scale,
    longestMm: Math.hypot(largest.box.width, largest.box.height) / scale,
  };
}
