import { PDFDocument, StandardFonts } from 'pdf-lib';
import { expect, test } from 'vitest';
import { textWidth } from '../../../core/pdf/textWidth.ts';

test('a text is as wide as the font itself says, and unknown where it can’t spell it', async () => {
  const doc = await PDFDocument.create();
  const texts = [
    '',
    'A',
    'AVAToWay – “Tafel”, 12.5 mm × 3',
    'Touch up, from the outer end of the cut tick: 12.4 mm, 18.9 mm and 3 more.',
    'Größe, naïve façade, œuvre',
    '  two  spaces  ',
  ];
  for (const name of [StandardFonts.Helvetica, StandardFonts.HelveticaBold]) {
    const font = await doc.embedFont(name);
    for (const text of texts)
      for (const size of [7, 9.5, 20])
        expect(textWidth(font, text, size), text).toBeCloseTo(font.widthOfTextAtSize(text, size), 9);
    for (const text of ['夜鷺', 'ok then 夜', '🛹']) {
      expect(() => font.encodeText(text)).toThrow();
      expect(textWidth(font, text, 10)).toBeNull();
    }
  }
  // Kerning counts: Helvetica's AFM pulls A and V together by 70 thousandths (Adobe's Core 14 metrics).
  const helvetica = await doc.embedFont(StandardFonts.Helvetica);
  expect(textWidth(helvetica, 'AV', 1000)).toBe(667 + 667 - 70);
});
