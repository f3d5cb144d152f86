import { expect, test } from 'vitest';
import type { FaceShape } from '../../renderer/board/faceShape.ts';
import { snap } from '../../renderer/board/snapping.ts';

/** A plain deck, 800 × 200 mm, printable 6 mm inside. */
const shape: FaceShape = {
  outline: [
    [-400, -100],
    [400, -100],
    [400, 100],
    [-400, 100],
  ],
  printable: [
    [
      [-394, -94],
      [394, -94],
      [394, 94],
      [-394, 94],
    ],
  ],
  holes: [],
  holeRadius: 2.5,
  box: { x: -400, y: -100, width: 800, height: 200 },
  kicks: [-250, 250],
  inner: [-181, 181],
  outer: [-235, 235],
};

test('the middle of art catches the centreline from a few millimetres away', () => {
  const held = snap(shape, { x: 20, y: -31, width: 100, height: 60 }, 5);
  expect(held.dt).toBeCloseTo(1, 9);
  expect(held.lines.map((l) => l.name)).toEqual(['centreline']);
});

test('an edge catches the printable edge, and both axes may catch at once', () => {
  const held = snap(shape, { x: -391, y: -96, width: 50, height: 20 }, 5);
  expect(held.ds).toBeCloseTo(-3, 9);
  expect(held.dt).toBeCloseTo(2, 9);
});

test('the nearest line wins', () => {
  // Left edge 2 mm from the inner holes, right edge 1 mm from the outer ones.
  const held = snap(shape, { x: 179, y: 30, width: 55, height: 20 }, 5);
  expect(held.ds).toBeCloseTo(1, 9);
});

test('nothing catches from further away', () => {
  expect(snap(shape, { x: 40, y: 20, width: 100, height: 60 }, 5)).toEqual({ ds: 0, dt: 0, lines: [] });
});

test('art snaps to the user’s own guides by its edges and by its middle', () => {
  const guides = [
    { along: 's' as const, at: 33 },
    { along: 't' as const, at: 21.5 },
  ];
  const edge = snap(shape, { x: 34, y: 40, width: 20, height: 10 }, 2, guides);
  expect([edge.ds, edge.lines[0]?.name]).toEqual([-1, 'guide']);
  const middle = snap(shape, { x: 60, y: 16, width: 20, height: 10 }, 2, guides);
  expect([middle.dt, middle.lines.at(-1)?.name]).toEqual([0.5, 'guide']);
});
