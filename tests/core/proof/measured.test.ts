import { expect, test } from 'vitest';
import { linearOfHex } from '../../../core/colour/index.ts';
import { lookIn } from '../../../core/facePreview.ts';
import { inkFrom } from '../../../core/job/index.ts';
import { composePulls, hidingOf, type InkLook } from '../../../core/proof/index.ts';

const measured = { overBlackHex: '#5a2418', overWhiteHex: '#e8705a' };
const ink = { ...inkFrom({ name: 'Sheer coral', hex: '#e8705a', opacity: 0.5 }, []), measured };
const over = (look: InkLook, wood: string): number[] => {
  const { data } = composePulls({
    width: 1,
    height: 1,
    veneerHex: wood,
    deck: null,
    pulls: [{ ...look, plane: { width: 1, height: 1, data: Uint8Array.of(255) } }],
  });
  return [...data.slice(0, 3)];
};

test('a measured ink is shown over the cards as it was measured, over wood by Kubelka and Munk, and not by its opacity', () => {
  const look = lookIn(ink, undefined);
  expect(over(look, '#000000')).toEqual([0x5a, 0x24, 0x18]);
  expect(over(look, '#ffffff')).toEqual([0xe8, 0x70, 0x5a]);
  // R = R0 + T² Rg / (1 − R0 Rg), Kubelka 1948, by hand for red over maple.
  const [r0, white, wood] = [linearOfHex('#5a2418')[0], linearOfHex('#e8705a')[0], linearOfHex('#dcb98a')[0]];
  const t2 = (white - r0) * (1 - r0);
  const red = r0 + (t2 * wood) / (1 - r0 * wood);
  const byte = 255 * (red <= 0.0031308 ? 12.92 * red : 1.055 * red ** (1 / 2.4) - 0.055);
  expect(Math.abs((over(look, '#dcb98a')[0] as number) - byte)).toBeLessThan(0.6);
  expect(over(lookIn({ ...ink, measured: undefined }, undefined), '#dcb98a')).not.toEqual(
    over(look, '#dcb98a'),
  );
});

test('a measurement is one ink’s own: another colour in a colourway is shown by its opacity', () => {
  expect(lookIn(ink, '#b58fd0')).toEqual({ hex: '#b58fd0', opacity: 0.5, kind: 'opaque' });
  expect(lookIn(ink, '#e8705a').measured).toEqual(measured);
});

test('what a measured pass hides is what the linear mix takes for it', () => {
  expect(hidingOf({ overBlackHex: '#000000', overWhiteHex: '#ffffff' })).toBe(0);
  expect(hidingOf({ overBlackHex: '#808080', overWhiteHex: '#808080' })).toBe(1);
  // A grey ink of 40 %: black and white shine through by 60 %, so their looks lie 0.6 of light apart.
  const grey = { hex: '#999999', opacity: 0.4, kind: 'opaque' };
  const hexOf = (rgb: number[]) => `#${rgb.map((v) => v.toString(16).padStart(2, '0')).join('')}`;
  const cards = { overBlackHex: hexOf(over(grey, '#000000')), overWhiteHex: hexOf(over(grey, '#ffffff')) };
  expect(hidingOf(cards)).toBeCloseTo(0.4, 2);
});
