import { type Component, components, type Mask } from '../raster/index.ts';
import { pxPerMm } from '../units/index.ts';
import type { FaceFacts } from './input.ts';

/** The centre of raster point (x, y) on the face's surface, mm. */
export function surfaceOf(facts: FaceFacts, x: number, y: number): { s: number; t: number } {
  const scale = pxPerMm(facts.dpi);
  return { s: facts.box.x + (x + 0.5) / scale, t: facts.box.y + facts.box.height - (y + 0.5) / scale };
}

/** Where a mask's ink lies: how many pieces, a point of the chief one on the surface, the area of all. */
export interface Spots {
  readonly count: number;
  readonly at: { readonly s: number; readonly t: number };
  readonly areaMm2: number;
}

/** Which pieces count, and which of them is the chief one. */
export interface SpotChoice {
  /** Points; smaller pieces are left out. */
  readonly leastPx?: number;
  /** mm along the diagonal of the piece's box; shorter pieces are left out. */
  readonly leastMm?: number;
  /** The chief piece: `largest` by area, as when left out, or `longest` by that diagonal. */
  readonly chief?: 'largest' | 'longest';
}

const diagonalPx = ({ box }: Component): number => Math.hypot(box.width, box.height);

/** The pieces of a mask that count, or null when none does. */
export function spotsOf(facts: FaceFacts, mask: Mask, choice: SpotChoice = {}): Spots | null {
  const scale = pxPerMm(facts.dpi);
  const size = (piece: Component) => (choice.chief === 'longest' ? diagonalPx(piece) : piece.area);
  let chief: Component | null = null;
  let count = 0;
  let area = 0;
  for (const piece of components(mask)) {
    if (piece.area < (choice.leastPx ?? 1) || diagonalPx(piece) < (choice.leastMm ?? 0) * scale) continue;
    count++;
    area += piece.area;
    if (!chief || size(piece) > size(chief)) chief = piece;
  }
  if (!chief) return null;
  return { count, at: surfaceOf(facts, chief.x, chief.y), areaMm2: area / scale / scale };
}
