import { expect, test } from 'vitest';
import { draw, errorDiffuseMixtures, getBit, inkCount } from '../../../core/raster/index.ts';

type Light = readonly [number, number, number];

/** Veneer and three inks, linear light. */
const COLOURS: readonly Light[] = [
  [0.75, 0.55, 0.3],
  [0.58, 0.02, 0.01],
  [0.007, 0.045, 0.19],
  [0.87, 0.87, 0.79],
];

/** One plane a colour, every point with the same shares of 255. */
const even = (shares: readonly number[], points: number) =>
  shares.map((share) => new Uint8Array(points).fill(share));

test.each([[[128, 127, 0, 0]], [[51, 76, 102, 26]], [[26, 0, 76, 153]], [[1, 2, 3, 249]]])(
  'shares of %j keep their mean light, each point in one ink at most',
  (shares) => {
    const side = 120;
    const masks = errorDiffuseMixtures(even(shares, side * side), COLOURS, side, side);
    const inked = masks.map((mask) => inkCount(mask) / side ** 2);
    const found = [1 - inked.reduce((a, b) => a + b, 0), ...inked];
    for (let c = 0; c < 3; c++) {
      const mean = (parts: readonly number[]) =>
        parts.reduce((sum, part, k) => sum + part * COLOURS[k]![c]!, 0);
      expect(Math.abs(mean(found) - mean(shares.map((share) => share / 255)))).toBeLessThan(0.01);
    }
    for (let y = 0; y < side; y++)
      for (let x = 0; x < side; x++)
        expect(masks.filter((mask) => getBit(mask, x, y)).length).toBeLessThanOrEqual(1);
  },
);

test('what is one ink’s alone, or bare, gets no speck of another, whatever lies beside it', () => {
  const [width, height] = [64, 32];
  const left = Array.from({ length: width * height }, (_, i) => i % width < 32);
  const planes = [
    Uint8Array.from(left, () => 0),
    Uint8Array.from(left, (mixed) => (mixed ? 128 : 0)),
    Uint8Array.from(left, (mixed) => (mixed ? 127 : 0)),
    Uint8Array.from(left, (mixed) => (mixed ? 0 : 255)),
  ];
  const [red, blue, cream] = errorDiffuseMixtures(planes, COLOURS, width, height);
  for (let y = 0; y < height; y++)
    for (let x = 32; x < width; x++)
      expect([red, blue, cream].map((mask) => getBit(mask!, x, y))).toEqual([false, false, true]);
  const bare = errorDiffuseMixtures(even([255, 0, 0, 0], 99), COLOURS, 11, 9);
  expect(bare.map(inkCount)).toEqual([0, 0, 0]);
});

test('the error goes as Floyd and Steinberg have it: 7 of 16 to the next point of a row', () => {
  // Half of black ink on white in one row: what is wanted is 128/255 of the light, and each point takes the nearer of the two.
  const ink = new Uint8Array(8).fill(127);
  const [mask] = errorDiffuseMixtures(
    [ink.map((share) => 255 - share), ink],
    [
      [1, 1, 1],
      [0, 0, 0],
    ],
    8,
    1,
  );
  const byHand: string[] = [];
  for (let x = 0, carry = 0; x < 8; x++) {
    const wanted = 128 / 255 + carry;
    const white = wanted > 0.5;
    byHand.push(white ? '.' : '#');
    carry = (7 / 16) * (wanted - (white ? 1 : 0));
  }
  expect(draw(mask!)).toBe(byHand.join(''));
});

test('shares and colours must go together', () => {
  expect(() => errorDiffuseMixtures(even([200, 55], 4), COLOURS, 2, 2)).toThrow(RangeError);
});
