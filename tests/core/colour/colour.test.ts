import { converter, differenceCiede2000 } from 'culori';
import { expect, test } from 'vitest';
import {
  colourName,
  deltaE00,
  labOfHex,
  linearOfOklab,
  linearToSrgb,
  luminanceOfHex,
  oklabOfLinear,
  parseHex,
  srgbToLinear,
  toHex,
} from '../../../core/colour/index.ts';
import { linearOfHex } from '../../../core/colour/srgb.ts';
import pairs from '../../reference/colour/ciede2000.json';
import values from '../../reference/colour/srgb-lab.json';

test('colour difference equals the 34 published pairs (Sharma, Wu and Dalal 2005) to 1e-4, either way round', () => {
  expect(pairs.pairs).toHaveLength(34);
  for (const [i, pair] of pairs.pairs.entries()) {
    const [a, b] = [pair.lab1, pair.lab2].map((p) => ({ l: p[0]!, a: p[1]!, b: p[2]! }));
    expect(Math.abs(deltaE00(a!, b!) - pair.deltaE00), `pair ${i + 1}`).toBeLessThanOrEqual(1e-4);
    expect(deltaE00(b!, a!), `pair ${i + 1} turned round`).toBeCloseTo(deltaE00(a!, b!), 10);
  }
});

test('sRGB to Lab, OKLab and luminance equals the reference table', () => {
  for (const v of values.values) {
    const [r, g, b] = v.srgb_8bit as [number, number, number];
    const hex = toHex([r, g, b]);
    const lab = labOfHex(hex);
    expect(lab.l, v.name).toBeCloseTo(v.lab_d65[0]!, 5);
    expect(lab.a, v.name).toBeCloseTo(v.lab_d65[1]!, 5);
    expect(lab.b, v.name).toBeCloseTo(v.lab_d65[2]!, 5);
    const ok = oklabOfLinear(linearOfHex(hex));
    expect(ok.l, v.name).toBeCloseTo(v.oklab[0]!, 6);
    expect(ok.a, v.name).toBeCloseTo(v.oklab[1]!, 6);
    expect(ok.b, v.name).toBeCloseTo(v.oklab[2]!, 6);
    expect(luminanceOfHex(hex), v.name).toBeCloseTo(v.relative_luminance_Y, 8);
  }
});

test('500 colours agree with the package culori in Lab (D65) and in their difference', () => {
  const lab65 = converter('lab65');
  const peer = differenceCiede2000();
  let seed = 7;
  const byte = () => {
    seed = (Math.imul(seed, 1103515245) + 12345) >>> 0;
    return seed >>> 24;
  };
  for (let i = 0; i < 500; i++) {
    const hexes = [toHex([byte(), byte(), byte()]), toHex([byte(), byte(), byte()])] as const;
    const theirs = hexes.map((hex) => lab65(hex)!);
    const ours = hexes.map(labOfHex);
    for (const k of [0, 1]) {
      expect(ours[k]!.l).toBeCloseTo(theirs[k]!.l, 6);
      expect(ours[k]!.a).toBeCloseTo(theirs[k]!.a, 6);
      expect(ours[k]!.b).toBeCloseTo(theirs[k]!.b, 6);
    }
    const asTheirs = ours.map((p) => ({ mode: 'lab65' as const, l: p.l, a: p.a, b: p.b }));
    expect(deltaE00(ours[0]!, ours[1]!)).toBeCloseTo(peer(asTheirs[0]!, asTheirs[1]!), 6);
  }
});

test('every byte survives the way to light and back, and OKLab its way', () => {
  for (let v = 0; v < 256; v++) expect(Math.round(linearToSrgb(srgbToLinear(v / 255)) * 255)).toBe(v);
  for (const hex of ['#000000', '#ffffff', '#e8613c', '#1b2440', '#00ff00']) {
    const light = linearOfHex(hex);
    linearOfOklab(oklabOfLinear(light)).forEach((v, i) => {
      expect(v).toBeCloseTo(light[i]!, 6);
    });
  }
});

test('hex text is read in both cases and refused when it is none', () => {
  expect(parseHex('#E8613c')).toEqual([232, 97, 60]);
  expect(toHex([232, 97, 60])).toBe('#e8613c');
  expect(() => parseHex('e8613c')).toThrow(RangeError);
  expect(() => parseHex('#e8613')).toThrow(RangeError);
});

test('plain names for the colours printers know', () => {
  expect(
    ['#f7f3e8', '#f2b632', '#e8613c', '#2f8f83', '#1b2440', '#000000', '#ffffff'].map(colourName),
  ).toEqual(['warm white', 'sun yellow', 'coral', 'sea green', 'night blue', 'black', 'white']);
});
