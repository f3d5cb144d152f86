import { parseHex } from '../colour/index.ts';
import { codeOf, LABEL, labelsOf, type SeparatePalette } from './labels.ts';

/** Who prints an even area of this colour: the ink's place in the palette, or null for bare. */
export function nearestInk(palette: SeparatePalette, hex: string): number | null {
  const labels = labelsOf(palette);
  const [r, g, b] = parseHex(hex);
  const plane = labels.plane[codeOf(labels, r, g, b, 255) & LABEL]!;
  return plane === 0 ? null : plane - 1;
}
