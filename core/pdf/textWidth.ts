import type { PDFFont } from 'pdf-lib';

/** What is known of a font: thousandths of its size by character and, added between two, by pair; null: it can't spell that. */
interface Widths {
  readonly characters: Map<string, number | null>;
  readonly pairs: Map<string, number>;
}

const known = new WeakMap<PDFFont, Widths>();

function ofCharacter(font: PDFFont, { characters }: Widths, character: string): number | null {
  let width = characters.get(character);
  if (width === undefined) {
    try {
      width = font.widthOfTextAtSize(character, 1000);
    } catch {
      width = null;
    }
    characters.set(character, width);
  }
  return width;
}

/**
 * Width of a text in one of the standard fonts, points; null where the font can't spell it. As the font's own measure, kerning included,
 * but from widths that are asked for once: that one encodes a text to measure it, and lines are broken word by word.
 */
export function textWidth(font: PDFFont, text: string, size: number): number | null {
  let widths = known.get(font);
  if (!widths) {
    widths = { characters: new Map(), pairs: new Map() };
    known.set(font, widths);
  }
  let total = 0;
  let last = '';
  let lastWidth = 0;
  for (const character of text) {
    const width = ofCharacter(font, widths, character);
    if (width === null) return null;
    if (last !== '') {
      const pair = last + character;
      let between = widths.pairs.get(pair);
      if (between === undefined) {
        between = font.widthOfTextAtSize(pair, 1000) - lastWidth - width;
        widths.pairs.set(pair, between);
      }
      total += between;
    }
    total += width;
    [last, lastWidth] = [character, width];
  }
  return (total * size) / 1000;
}
