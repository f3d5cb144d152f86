import { expect, test } from 'vitest';
import { parsePalette, writeGpl, writePaletteJson } from '../../../core/colour/index.ts';

const INKS = [
  { name: 'Sun yellow', hex: '#f2b632' },
  { name: 'Night blue', hex: '#1b2440' },
];

test('palettes come back from both forms as they went', () => {
  expect(parsePalette(writeGpl('Shelf', INKS))).toEqual({ ok: true, value: INKS });
  expect(parsePalette(writePaletteJson('Shelf', INKS))).toEqual({ ok: true, value: INKS });
});

// The form is described in the GIMP developer documentation (devel-docs/specifications/gpl.txt); from memory.
test('GIMP palette text with a name line, comments, blank lines, tabs and Windows line ends is read', () => {
  const text =
    'GIMP Palette\r\nName: Shelf\r\nColumns: 4\r\n# mixed in May\r\n\r\n232  97  60\tCoral\r\n  0   0   0\r\n';
  expect(parsePalette(text)).toEqual({
    ok: true,
    value: [
      { name: 'Coral', hex: '#e8613c' },
      { name: '#000000', hex: '#000000' },
    ],
  });
});

test('JSON may be a bare list, short hex included', () => {
  expect(parsePalette('["#fff", {"hex": "E8613C", "name": "Coral"}]')).toEqual({
    ok: true,
    value: [
      { name: '#ffffff', hex: '#ffffff' },
      { name: 'Coral', hex: '#e8613c' },
    ],
  });
});

test('what is no palette is refused in a sentence, never with a throw', () => {
  for (const text of [
    '',
    'hello',
    'GIMP Palette\n300 0 0 Red',
    'GIMP Palette\n',
    '{"a":1}',
    '[',
    '[]',
    '[null]',
    '[{"hex":7}]',
    'null',
    '{"colours":{}}',
  ]) {
    const read = parsePalette(text);
    expect(read.ok, text).toBe(false);
    if (!read.ok) expect(read.mend.length).toBeGreaterThan(10);
  }
});
