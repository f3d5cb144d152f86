import { type Art, artPxPerMm } from '../../core/job/index.ts';
import { MM_PER_INCH } from '../../core/units/index.ts';

/** The art's own pixels an inch at its size on the deck; null for drawings, which have none. */
export const effectiveDpi = (piece: Art): number | null =>
  artPxPerMm(piece) === null ? null : artPxPerMm(piece)! * MM_PER_INCH;

/** Below 150 edges show as steps on the deck, below 300 they may (common practice, no source). */
export function resolutionWord(dpi: number | null): {
  readonly text: string;
  readonly tone: 'good' | 'fair' | 'poor';
} {
  if (dpi === null) return { text: 'sharp at any size', tone: 'good' };
  const n = `${Math.round(dpi)} dpi on the deck`;
  if (dpi < 150) return { text: `${n}: too coarse, edges will show steps`, tone: 'poor' };
  if (dpi < 300) return { text: `${n}: soft edges, fine for bold shapes`, tone: 'fair' };
  return { text: n, tone: 'good' };
}
