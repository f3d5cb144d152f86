import { describe, expect, test } from 'vitest';
import { boundsOf } from '../../../core/film/bounds.ts';
import { ACCENTS, GLYPHS } from '../../../core/film/glyphs.ts';
import { lettering, shorten } from '../../../core/film/index.ts';

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
    expect(lettering('夜鷺', 2.4).shapes.length).toBe(2);
  });

  test('shortening counts letters, not code units', () => {
    expect(shorten('🦩🦩🦩🦩', 4)).toBe('🦩🦩🦩🦩');
    expect(shorten('🦩🦩🦩🦩', 3)).toBe('🦩🦩…');
  });
});
