import { type Art, artPxPerMm } from './job/index.ts';
import { MM_PER_INCH } from './units/index.ts';

/**
 * Points an inch of wood below which a picture's lines may be thinner than its points: there lines and meetings of inks are looked at
 * more closely, which takes twice as long. tests/reference/separationSweep has none broken and no false ink from here on without.
 */
export const COARSE_ART_DPI = 280;

/** Whether a piece is a picture with so few points on the deck. Drawings are drawn as fine as they are needed. */
export function isCoarse(piece: Art): boolean {
  const perMm = artPxPerMm(piece);
  return perMm !== null && perMm * MM_PER_INCH < COARSE_ART_DPI;
}
