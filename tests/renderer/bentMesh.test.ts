import { describe, expect, test } from 'vitest';
import { deckTemplate, FACES, makeSurface, outlineOnSurface } from '../../core/deck/index.ts';
import { bentFace, bentRim } from '../../renderer/board/bentMesh.ts';

const deck = deckTemplate('popsicle-8.25')!;
const BOX = { x: -500, y: -150, width: 1000, height: 300 };
type Point = readonly [number, number, number];
const pointsOf = (of: ArrayLike<number>): Point[] =>
  Array.from({ length: of.length / 3 }, (_, i) => [of[i * 3]!, of[i * 3 + 1]!, of[i * 3 + 2]!]);

describe('the bent board in three dimensions', () => {
  test('on the ramps the faces lie one thickness apart, square to the wood, worked by hand', () => {
    const { mesh: top } = bentFace(deck, 'top', BOX);
    const { mesh: bottom } = bentFace(deck, 'bottom', BOX);
    for (const end of ['nose', 'tail'] as const) {
      const side = end === 'nose' ? 1 : -1;
      const turn = (deck[end].angleDeg * Math.PI) / 180;
      const start = deck.wheelbase / 2 + deck.holes.along + deck[end].start;
      // The top's ramp on the centreline: through the end of its arc, at the kick's angle.
      const at = [
        start + deck[end].radius * Math.sin(turn),
        deck[end].radius * (1 - Math.cos(turn)),
      ] as const;
      const above = ([x, , z]: Point) => -(side * x - at[0]) * Math.sin(turn) + (z - at[1]) * Math.cos(turn);
      const onRamp = (p: Point) => side * p[0] > at[0] + 25 && Math.abs(p[1]) < 0.01;
      const [tops, bottoms] = [top, bottom].map((m) => pointsOf(m.positions).filter(onRamp));
      expect(tops!.length).toBeGreaterThan(10);
      expect(bottoms!.length).toBeGreaterThan(10);
      for (const p of tops!) expect(above(p)).toBeCloseTo(0, 2);
      for (const p of bottoms!) expect(above(p)).toBeCloseTo(-deck.thickness, 2);
    }
  });

  test('each place of the mesh shows its own place of the picture, and the mesh reaches the outline', () => {
    for (const face of FACES) {
      const { mesh, rim } = bentFace(deck, face, BOX);
      const surface = makeSurface(deck, face);
      pointsOf(mesh.positions).forEach(([x, y], i) => {
        const s = mesh.uvs[i * 2]! * BOX.width + BOX.x;
        const t = mesh.uvs[i * 2 + 1]! * BOX.height + BOX.y;
        const plan = surface.toPlan({ s, t });
        expect(Math.hypot(plan.x - x, plan.y * (face === 'top' ? 1 : -1) - y)).toBeLessThan(1e-3);
      });
      // The rim's corners lie on the outline, so that no art is cut off at the rails.
      const ring = outlineOnSurface(deck, face, 0.1);
      const widest = Math.max(...ring.map(([s, t]) => surface.toPlan({ s, t }).y));
      expect(Math.max(...rim.map((p) => p[1]))).toBeCloseTo(widest, 1);
    }
  });

  test('the edge joins both rims all round', () => {
    const rims = { top: bentFace(deck, 'top', BOX).rim, bottom: bentFace(deck, 'bottom', BOX).rim };
    const edge = bentRim(rims.bottom, rims.top);
    expect(edge.indices.length).toBe(rims.top.length * 6);
    for (const i of edge.indices) expect(i).toBeLessThan(edge.positions.length / 3);
    const first = pointsOf(edge.positions);
    expect(first[0]).toEqual(first[first.length - 2]);
  });
});
