import { expect, test } from 'vitest';
import { CARD_MM, cssPxPerMm, screenPxPerMm } from '../../renderer/board/screenSize.ts';

test('a card that fills so many pixels tells the screen’s dots, and zooming the page changes nothing on the glass', () => {
  // ISO/IEC 7810 ID-1: 85.60 × 53.98 mm, the size of bank cards.
  expect([CARD_MM.width, CARD_MM.height]).toEqual([85.6, 53.98]);
  // A screen of 96 dots an inch shows a card 323.5 px wide; one of 192 with a ratio of 2 just as many CSS pixels.
  const plain = screenPxPerMm((85.6 / 25.4) * 96, 85.6, 1);
  expect(plain * 25.4).toBeCloseTo(96, 6);
  const fine = screenPxPerMm((85.6 / 25.4) * 96, 85.6, 2);
  expect(fine * 25.4).toBeCloseTo(192, 6);
  // At a page zoom of 150 % one CSS pixel is half as large again, so fewer of them make a millimetre.
  expect(cssPxPerMm(plain, 1.5)).toBeCloseTo(plain / 1.5, 9);
});
