import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Art } from '../../core/job/index.ts';
import { carried } from '../../renderer/acts/bringOver.ts';

/** Where a point of the art lands on the deck: mirror, then turn, then place (brute force from the schema's words). */
const land = (piece: Art, u: number, v: number): readonly [number, number] => {
  const a = (piece.rotationDeg * Math.PI) / 180;
  const x = piece.mirror ? -u : u;
  return [piece.x + x * Math.cos(a) - v * Math.sin(a), piece.y + x * Math.sin(a) + v * Math.cos(a)];
};

test('mirrored, every point of the art lands at the same place along the deck and opposite across it; seed 21', () => {
  fc.assert(
    fc.property(
      fc.record({
        x: fc.double({ min: -300, max: 300, noNaN: true }),
        y: fc.double({ min: -90, max: 90, noNaN: true }),
        rotationDeg: fc.double({ min: -360, max: 360, noNaN: true }),
        mirror: fc.boolean(),
      }),
      fc.double({ min: -50, max: 50, noNaN: true }),
      fc.double({ min: -50, max: 50, noNaN: true }),
      (place, u, v) => {
        const piece = { ...place, width: 100, height: 100 } as Art;
        const [s, t] = land(piece, u, v);
        const [s2, t2] = land(carried(piece, true), u, v);
        expect(s2).toBeCloseTo(s, 8);
        expect(t2).toBeCloseTo(-t, 8);
      },
    ),
    { seed: 21 },
  );
});
