import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PDFDocument, StandardFonts } from 'pdf-lib';
import { ROOT } from './root.mjs';
import { isEntry, main } from './step.mjs';

const TARGET = join(ROOT, 'core', 'paper', 'helvetica.generated.ts');

/** As a string of the source, characters that no one sees by their number. */
const quoted = (text) =>
  `'${text
    .replaceAll('\\', '\\\\')
    .replaceAll("'", "\\'")
    .replaceAll('\u00a0', '\\u00a0')
    .replaceAll('\u00ad', '\\u00ad')}'`;

/** A face's widths by character and what is added between pairs, as pdf-lib has them from the typeface's own metrics. */
function measured(font) {
  const letters = font.getCharacterSet().map((code) => String.fromCodePoint(code));
  const width = (text) => font.widthOfTextAtSize(text, 1000);
  const widths = new Map(letters.map((letter) => [letter, width(letter)]));
  // Letters with the same amounts to the same letters share a row.
  const rows = new Map();
  for (const left of letters) {
    const byAmount = new Map();
    for (const right of letters) {
      const between = width(left + right) - widths.get(left) - widths.get(right);
      if (between !== 0) byAmount.set(between, (byAmount.get(between) ?? '') + right);
    }
    for (const [amount, rights] of byAmount) {
      const key = `${amount} ${rights}`;
      rows.set(key, { amount, rights, lefts: (rows.get(key)?.lefts ?? '') + left });
    }
  }
  const byWidth = new Map();
  for (const [letter, wide] of widths) byWidth.set(wide, (byWidth.get(wide) ?? '') + letter);
  return { byWidth, rows: [...rows.values()] };
}

function face(name, { byWidth, rows }) {
  return [
    `export const ${name}: FaceMetrics = {`,
    '  widths: [',
    ...[...byWidth].map(([wide, letters]) => `    [${wide}, ${quoted(letters)}],`),
    '  ],',
    '  between: [',
    ...rows.map(({ amount, lefts, rights }) => `    [${amount}, ${quoted(lefts)}, ${quoted(rights)}],`),
    '  ],',
    '};',
  ];
}

/** The file that holds both faces' metrics. */
export async function helveticaFile() {
  const doc = await PDFDocument.create();
  const plain = measured(await doc.embedFont(StandardFonts.Helvetica));
  const bold = measured(await doc.embedFont(StandardFonts.HelveticaBold));
  return [
    '// Made by build/helvetica.mjs: do not edit. Widths and kerning picked out of the Adobe Core 14 AFM files Helvetica.afm and',
    '// Helvetica-Bold.afm, as pdf-lib carries them, for the characters of WinAnsiEncoding. Copyright (c) 1985, 1987, 1989, 1990, 1997',
    '// Adobe Systems Incorporated. All Rights Reserved. Those files may be used, copied, and distributed for any purpose and without',
    '// charge, with or without modification, provided that all copyright notices are retained.',
    '',
    '/** Thousandths of the size: widths, each with the characters that have it; and what is added between left and right ones. */',
    'export interface FaceMetrics {',
    '  readonly widths: readonly (readonly [width: number, letters: string])[];',
    '  readonly between: readonly (readonly [amount: number, lefts: string, rights: string])[];',
    '}',
    '',
    ...face('HELVETICA', plain),
    '',
    ...face('HELVETICA_BOLD', bold),
    '',
  ].join('\n');
}

if (isEntry(import.meta))
  await main(async () => {
    writeFileSync(TARGET, await helveticaFile());
  });
