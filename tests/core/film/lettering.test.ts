import { describe, expect, test } from 'vitest';
import { boundsOf } from '../../../core/film/bounds.ts';
import { ACCENTS, GLYPHS } from '../../../core/film/glyphs.ts';
import { GLYPHS_BEYOND_LATIN } from '../../../core/film/glyphsBeyondLatin.ts';
import { drawable, inkLabel, lettering, shorten } from '../../../core/film/index.ts';

describe('lettering', () => {
  test('every letter stays within its line: points are whole pairs between tail and accent height', () => {
    for (const [letter, strokes] of Object.entries(GLYPHS)) {
      for (const stroke of strokes.split(' ')) {
        expect(stroke, `${letter}: ${strokes}`).toMatch(/^([0-9a-z]{2}){2,}$/);
        for (let i = 1; i < stroke.length; i += 2) {
          expect(Number.parseInt(stroke[i]!, 36), letter).toBeLessThanOrEqual(17);
        }
      }
    }
    for (const { strokes } of Object.values(ACCENTS)) expect(strokes).toMatch(/^(([0-9a-z]{2}){2,}( |$))+$/);
  });

  test('printable ASCII is all drawn, no boxes', () => {
    for (let code = 0x21; code < 0x7f; code++)
      expect(Object.keys(GLYPHS)).toContain(String.fromCharCode(code));
  });

  test('a capital is as high as asked', () => {
    const box = boundsOf(lettering('H', 2.4, 0).shapes)!;
    expect(box.y).toBeCloseTo(0, 9);
    expect(box.height).toBeCloseTo(2.4, 9);
  });

  test('an accent stands above its letter, inside the letter’s width', () => {
    const plain = lettering('e', 2.4, 0);
    const accented = lettering('é', 2.4, 0);
    expect(accented.width).toBeCloseTo(plain.width, 9);
    expect(accented.shapes.length).toBe(plain.shapes.length + 1);
    expect(boundsOf(accented.shapes)!.height).toBeGreaterThan(boundsOf(plain.shapes)!.height);
  });

  test('any Unicode text is taken: other scripts, emoji, joiners, lone surrogates, controls', () => {
    for (const text of ['夜鷺', 'Ночь', '👩🏽‍🎨', '\ud800', 'a\u0000b\tc\n', '\u202eabc', 'Ạ̧̊́', '']) {
      const { shapes, width } = lettering(text, 2.4);
      expect(Number.isFinite(width)).toBe(true);
      for (const shape of shapes)
        for (const [x, y] of shape.points) expect(Number.isFinite(x + y)).toBe(true);
    }
  });

  test('Cyrillic and Greek names are drawn letter by letter, with their accents', () => {
    // The alphabets of Russian, Ukrainian and Belarusian, and of Greek, as Unicode lists them.
    const cyrillic = Array.from({ length: 64 }, (_, i) => String.fromCharCode(0x410 + i)).join('');
    const greek = Array.from({ length: 24 + 1 }, (_, i) => String.fromCharCode(0x391 + i)).filter(
      (c) => c !== '\u03a2',
    );
    for (const letter of [
      ...cyrillic,
      ...'ЁёЇїІіЄєҐґЎў',
      ...greek,
      ...greek.map((c) => c.toLowerCase()),
      'ς',
      'ά',
    ])
      expect(drawable(letter), letter).toBe(true);
    const width = (text: string) => lettering(text, 2.4).width;
    expect(width('Ночная')).toBeGreaterThan(width('Ноч'));
    // A short i is an i and its breve.
    expect(lettering('й', 2.4).shapes.length).toBe(lettering('и', 2.4).shapes.length + 1);
    for (const strokes of Object.values(GLYPHS_BEYOND_LATIN))
      for (const stroke of strokes.split(' ')) {
        expect(stroke, strokes).toMatch(/^([0-9a-c][0-9a-h]){2,}$/);
      }
  });

  test('a name in a script without drawings is told so, and an ink then goes by its pull', () => {
    for (const text of ['夜の青', 'أزرق', 'כחול', 'नीला', '밤', 'Blue 夜']) {
      expect(drawable(text), text).toBe(false);
      expect(inkLabel({ inkName: text, pull: 5 })).toBe('Ink 5');
    }
    for (const text of ['Ночная', 'Nattblå', 'Łódź', 'Μπλε', 'white base']) {
      expect(drawable(text), text).toBe(true);
      expect(inkLabel({ inkName: text, pull: 5 })).toBe(text);
    }
    // What must be spelt all the same has one question mark for a run, never boxes.
    expect(lettering('夜の青', 2.4)).toEqual(lettering('?', 2.4));
    expect(lettering('夜 青', 2.4)).toEqual(lettering('? ?', 2.4));
  });

  test('shortening counts letters, not code units', () => {
    expect(shorten('🦩🦩🦩🦩', 4)).toBe('🦩🦩🦩🦩');
    expect(shorten('🦩🦩🦩🦩', 3)).toBe('🦩🦩…');
  });
});
