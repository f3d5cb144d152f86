import { expect, test } from 'vitest';
import { approximationOf, composePulls, type ProofPull, shiftPlane } from '../../../core/proof/index.ts';
import { blankPlane, type Plane } from '../../../core/raster/index.ts';

const planeOf = (...values: number[]): Plane => ({
  width: values.length,
  height: 1,
  data: Uint8Array.from(values),
});
const WHITE = '#ffffff';
const pull = (plane: Plane, hex: string, opacity: number, kind = 'opaque'): ProofPull => ({
  plane,
  hex,
  opacity,
  kind,
});
const colourAt = (data: ArrayLike<number>, i: number) => Array.from({ length: 4 }, (_, c) => data[i * 4 + c]);

test('an ink that hides all shows its own colour; half a point of it mixes in light', () => {
  const { data } = composePulls({
    width: 3,
    height: 1,
    veneerHex: WHITE,
    deck: null,
    pulls: [pull(planeOf(0, 255, 128), '#000000', 1)],
  });
  expect(colourAt(data, 0)).toEqual([255, 255, 255, 255]);
  expect(colourAt(data, 1)).toEqual([0, 0, 0, 255]);
  // 127/255 of the light is 0.498: encoded by IEC 61966-2-1 that is 187.5, not 127.
  expect(data[8]).toBeGreaterThanOrEqual(187);
  expect(data[8]).toBeLessThanOrEqual(188);
});

test('opacity is the share of what lies under it that a pass hides', () => {
  const { data } = composePulls({
    width: 1,
    height: 1,
    veneerHex: '#000000',
    deck: null,
    pulls: [pull(planeOf(255), WHITE, 0.5), pull(planeOf(255), WHITE, 0.5)],
  });
  // Two passes hide 1 − 0.5² = 0.75 of the black; 0.75 of the light is 225 (IEC 61966-2-1).
  expect(data[0]).toBe(225);
});

test('transparent inks filter: yellow over cyan is green, whichever comes first; opaque ones hide', () => {
  const over = (first: string, second: string, kind: string) =>
    colourAt(
      composePulls({
        width: 1,
        height: 1,
        veneerHex: WHITE,
        deck: null,
        pulls: [
          pull(planeOf(255), first, kind === 'opaque' ? 1 : 0, kind),
          pull(planeOf(255), second, kind === 'opaque' ? 1 : 0, kind),
        ],
      }).data,
      0,
    );
  expect(over('#00ffff', '#ffff00', 'transparent')).toEqual([0, 255, 0, 255]);
  expect(over('#ffff00', '#00ffff', 'transparent')).toEqual([0, 255, 0, 255]);
  expect(over('#00ffff', '#ffff00', 'opaque')).toEqual([255, 255, 0, 255]);
});

test('a measured ink shows its readings over black and over white', () => {
  const measured = { overBlackHex: '#604020', overWhiteHex: '#d0a060' };
  for (const [veneerHex, expected] of [
    ['#000000', [0x60, 0x40, 0x20]],
    [WHITE, [0xd0, 0xa0, 0x60]],
  ] as const) {
    const { data } = composePulls({
      width: 1,
      height: 1,
      veneerHex,
      deck: null,
      pulls: [{ ...pull(planeOf(255), '#ff00ff', 0.1), measured }],
    });
    expected.forEach((v, c) => {
      expect(Math.abs(data[c]! - v)).toBeLessThanOrEqual(1);
    });
  }
});

test('outside the deck and in holes the picture is clear, or shows the bench', () => {
  const request = {
    width: 3,
    height: 1,
    veneerHex: '#d9b98a',
    deck: planeOf(255, 0, 255),
    holes: planeOf(0, 0, 255),
    pulls: [pull(planeOf(255, 255, 255), '#000000', 1)],
  };
  const clear = composePulls(request).data;
  expect([0, 1, 2].map((i) => clear[i * 4 + 3])).toEqual([255, 0, 0]);
  const bench = composePulls({ ...request, benchHex: '#808080' }).data;
  expect(colourAt(bench, 0)).toEqual([0, 0, 0, 255]);
  expect(colourAt(bench, 1)).toEqual([128, 128, 128, 255]);
  expect(colourAt(bench, 2)).toEqual([128, 128, 128, 255]);
});

test('planes of another size are a bug of the caller', () => {
  const request = {
    width: 2,
    height: 1,
    veneerHex: WHITE,
    deck: null,
    pulls: [pull(planeOf(255), WHITE, 1)],
  };
  expect(() => composePulls(request)).toThrow(RangeError);
});

test('every kind that a proof shows only roughly says so', () => {
  for (const kind of ['pearlescent', 'glow', 'metallic', 'clear'])
    expect(approximationOf(kind)).toMatch(/ not/);
  expect(approximationOf('opaque')).toBeNull();
});

test('a pull out of register moves by whole and part points, and turns about its middle', () => {
  const dot = blankPlane(7, 7);
  dot.data[3 * 7 + 3] = 200;
  expect(shiftPlane(dot, 2, -1).data[2 * 7 + 5]).toBe(200);
  const half = shiftPlane(dot, 0.5, 0).data;
  expect([half[3 * 7 + 3], half[3 * 7 + 4]]).toEqual([100, 100]);
  const corner = blankPlane(7, 7);
  corner.data[3 * 7 + 6] = 200; // right of the middle: a quarter turn clockwise brings it below
  expect(shiftPlane(corner, 0, 0, Math.PI / 2).data[6 * 7 + 3]).toBe(200);
  const sum = (p: Plane) => p.data.reduce((n, v) => n + v, 0);
  expect(Math.abs(sum(shiftPlane(dot, 0.3, 0.7, 0.1)) - 200)).toBeLessThanOrEqual(10);
});
