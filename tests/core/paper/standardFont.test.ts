import { readFileSync } from 'node:fs';
import { PDFDocument, type PDFFont, StandardFonts } from 'pdf-lib';
import { beforeAll, expect, test } from 'vitest';
import { helveticaFile } from '../../../build/helvetica.mjs';
import { spell, textWidth } from '../../../core/paper/standardFont.ts';

const fonts = {} as Record<'plain' | 'bold', PDFFont>;
beforeAll(async () => {
  const doc = await PDFDocument.create();
  fonts.plain = await doc.embedFont(StandardFonts.Helvetica);
  fonts.bold = await doc.embedFont(StandardFonts.HelveticaBold);
});

const FACES = ['plain', 'bold'] as const;

test('the widths are those of pdf-lib’s metrics', async () => {
  const file = new URL('../../../core/paper/helvetica.generated.ts', import.meta.url);
  expect(readFileSync(file, 'utf8')).toBe(await helveticaFile());
});

test('a text is as wide and spelt as pdf-lib has it, every character and every pair', () => {
  const letters = fonts.plain.getCharacterSet().map((code) => String.fromCodePoint(code));
  expect(letters).toHaveLength(218);
  const wrong: string[] = [];
  for (const face of FACES)
    for (const left of letters) {
      if (spell(left) !== fonts[face].encodeText(left).toString()) wrong.push(left);
      for (const right of letters)
        if (textWidth(face, left + right, 1000) !== fonts[face].widthOfTextAtSize(left + right, 1000))
          wrong.push(left + right);
    }
  expect(wrong).toEqual([]);
});

test('lines of text are, too', () => {
  const texts = [
    '',
    'A',
    'AVAToWay – “Tafel”, 12.5 mm × 3',
    'Touch up, from the outer end of the cut tick: 12.4 mm, 18.9 mm and 3 more.',
    'Größe, naïve façade, œuvre',
    '  two  spaces  ',
  ];
  for (const face of FACES)
    for (const text of texts) {
      expect(spell(text)).toBe(fonts[face].encodeText(text).toString());
      for (const size of [7, 9.5, 20])
        expect(textWidth(face, text, size), text).toBeCloseTo(fonts[face].widthOfTextAtSize(text, size), 9);
    }
});

test('what the faces can’t spell is told: every other character of the basic plane, and any beyond it', () => {
  const known = new Set(fonts.plain.getCharacterSet());
  for (let code = 0; code < 65536; code++) {
    if (known.has(code)) continue;
    const text = String.fromCharCode(code);
    if (spell(text) !== null || textWidth('bold', text, 10) !== null) throw new Error(`${code} is spelt.`);
  }
  for (const text of ['夜鷺', 'ok then 夜', '🛹']) {
    expect(() => fonts.plain.encodeText(text)).toThrow();
    expect(textWidth('plain', text, 10)).toBeNull();
    expect(spell(text)).toBeNull();
  }
});

test('kerning counts: Helvetica’s AFM pulls A and V together by 70 thousandths (Adobe’s Core 14 metrics)', () => {
  expect(textWidth('plain', 'AV', 1000)).toBe(667 + 667 - 70);
});
