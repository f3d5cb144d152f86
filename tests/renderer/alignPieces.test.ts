import { describe, expect, test } from 'vitest';
import { deckTemplate } from '../../core/deck/index.ts';
import { type Art, newJob } from '../../core/job/index.ts';
import { arranged, halfExtent } from '../../renderer/art/alignPieces.ts';
import { withCopies } from '../../renderer/art/pieceCopies.ts';

const piece = (id: string, x: number, y: number, width: number, height: number, rotationDeg = 0): Art => ({
  id,
  name: id,
  hash: '0'.repeat(64),
  mediaType: 'image/png',
  widthPx: 10,
  heightPx: 10,
  width,
  height,
  x,
  y,
  rotationDeg,
  mirror: false,
  wrap: 'surface',
  ground: null,
  hidden: false,
});

/** Ends of the upright box about the piece, from its four turned corners, the long way round. */
function ends(a: Art, axis: 'x' | 'y'): [number, number] {
  const turn = (a.rotationDeg * Math.PI) / 180;
  const at = [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([u, v]) => {
    const [w, h] = [(u! * a.width) / 2, (v! * a.height) / 2];
    return axis === 'x'
      ? a.x + w * Math.cos(turn) - h * Math.sin(turn)
      : a.y + w * Math.sin(turn) + h * Math.cos(turn);
  });
  return [Math.min(...at), Math.max(...at)];
}

const ART = [piece('a', 0, 0, 40, 10), piece('b', 100, 30, 20, 20, 45), piece('c', 300, -5, 60, 30, 200)];
const put = (how: Parameters<typeof arranged>[1], art = ART) => {
  const to = arranged(art, how);
  return art.map((a) => ({ ...a, ...to.get(a.id) }));
};

describe('pieces levelled to each other', () => {
  test('the upright box about a turned piece is that of its corners', () => {
    for (const a of ART) {
      const [low, high] = ends(a, 'x');
      expect(2 * halfExtent(a).x).toBeCloseTo(high - low, 9);
    }
  });
  test.each([
    ['tail', 'x', 0, -20],
    ['nose', 'x', 1, ends(ART[2]!, 'x')[1]],
    ['down', 'y', 0, ends(ART[2]!, 'y')[0]],
    ['up', 'y', 1, ends(ART[1]!, 'y')[1]],
  ] as const)('%s: every piece ends at the furthest one and keeps its other place', (how, axis, end, at) => {
    const other = axis === 'x' ? 'y' : 'x';
    for (const [i, a] of put(how).entries()) {
      expect(ends(a, axis)[end]).toBeCloseTo(at, 9);
      expect(a[other]).toBe(ART[i]![other]);
    }
  });
  test('spread along: gaps are even, the outer two stay', () => {
    const [a, b, c] = put('spread along') as [Art, Art, Art];
    expect(a.x).toBeCloseTo(0, 9);
    expect(c.x).toBeCloseTo(300, 9);
    expect(ends(b, 'x')[0] - ends(a, 'x')[1]).toBeCloseTo(ends(c, 'x')[0] - ends(b, 'x')[1], 9);
  });
  test('one piece alone, or two to be spread, stay', () => {
    expect(arranged([ART[0]!], 'tail').size).toBe(0);
    expect(arranged(ART.slice(0, 2), 'spread across').size).toBe(0);
  });
});

test('copies lie on top with ids of their own, a step towards the nose and down', () => {
  const empty = newJob({ name: 'x', deck: deckTemplate('popsicle-8.25')! });
  const job = { ...empty, faces: { ...empty.faces, top: { ...empty.faces.top, art: ART } } };
  const made = withCopies(job, 'top', ART.slice(0, 2), 12);
  const { art } = made.job.faces.top;
  expect(art.slice(0, 3)).toEqual(ART);
  expect(new Set(art.map((a) => a.id)).size).toBe(5);
  expect(art.slice(3).map((a) => [a.x, a.y])).toEqual([
    [12, -12],
    [112, 18],
  ]);
  expect(made.ids).toEqual(art.slice(3).map((a) => a.id));
});
