import { describe, expect, test } from 'vitest';
import { placementInverse } from '../../../core/faceRaster.ts';
import { type Art, cropToBox, withCrop } from '../../../core/job/index.ts';

const piece: Art = {
  id: 'a',
  name: 'a.png',
  hash: 'a'.repeat(64),
  mediaType: 'image/png',
  widthPx: 400,
  heightPx: 200,
  width: 80,
  height: 40,
  x: 13,
  y: -7,
  rotationDeg: 0,
  mirror: false,
  wrap: 'surface',
  ground: null,
  hidden: false,
};
/** Where a point of the deck falls in the art, fractions of the whole of it. */
const inArt = (art: Art, x: number, y: number) => {
  const out = new Float64Array(2);
  placementInverse(art)(x, y, out);
  return [...out];
};

describe('a crop', () => {
  for (const over of [{}, { rotationDeg: 33 }, { mirror: true }, { mirror: true, rotationDeg: -140 }])
    test(`leaves what stays just where it was: ${JSON.stringify(over)}`, () => {
      const whole = { ...piece, ...over };
      const cut = { ...whole, ...withCrop(whole, { left: 0.1, top: 0.25, right: 0.4, bottom: 0.05 }) };
      expect(cut.width).toBeCloseTo(40, 9);
      expect(cut.height).toBeCloseTo(28, 9);
      for (const [x, y] of [
        [0, 0],
        [20, -12],
        [5, 9],
      ] as const) {
        const [a, b] = [inArt(whole, x, y), inArt(cut, x, y)];
        expect(b[0]).toBeCloseTo(a[0]!, 9);
        expect(b[1]).toBeCloseTo(a[1]!, 9);
      }
      const again = { ...cut, ...withCrop(cut, null) };
      expect(again.crop).toBeUndefined();
      for (const key of ['x', 'y', 'width', 'height'] as const) expect(again[key]).toBeCloseTo(whole[key], 9);
    });

  test('to a box takes the sides as they lie, also of a mirrored piece', () => {
    const box = { x0: -30, x1: 40, y0: -20, y1: 12 };
    expect(cropToBox(piece, box)).toEqual({ left: 0.125, right: 0, top: 0.2, bottom: 0 });
    expect(cropToBox({ ...piece, mirror: true }, box)).toEqual({
      left: 0,
      right: 0.125,
      top: 0.2,
      bottom: 0,
    });
  });

  test('never leaves nothing', () => {
    const cut = withCrop(piece, { left: 0.8, top: 0, right: 0.7, bottom: 0 });
    expect(cut.width).toBeGreaterThan(0.1);
    expect(cut.crop!.left + cut.crop!.right).toBeLessThan(0.995);
  });
});
