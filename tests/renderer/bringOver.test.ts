import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Art } from '../../core/job/index.ts';
import { meshOf, pullsOf } from '../../core/runOf.ts';
import { runPlanInput } from '../../core/runPlanInput.ts';
import { broughtOver, carried } from '../../renderer/acts/bringOver.ts';
import { newRun } from '../core/press/newRun.ts';

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

test('inks, their order, meshes and use go across; the plan then has both faces’ screens, bottom first', () => {
  const run = newRun();
  const job = {
    ...run,
    press: {
      ...run.press,
      inkUse: { 'bottom coral': { passes: 3, threadUm: 48 }, 'top gone': { passes: 9 } },
    },
  };
  const both = broughtOver(job, 'bottom', true);
  expect(both.faces.bottom).toEqual(job.faces.bottom);
  expect(both.faces.top.inks).toEqual(job.faces.bottom.inks);
  // The top keeps what is its own: the rail margin and what is kept clear round the bolts.
  expect(both.faces.top.clearHoles).toBe(job.faces.top.clearHoles);
  expect(both.press.inkUse).toEqual({
    'bottom coral': { passes: 3, threadUm: 48 },
    'top coral': { passes: 3, threadUm: 48 },
  });
  const coral = both.faces.top.inks[0]!;
  expect(meshOf(both, 'top', coral)).toEqual(meshOf(both, 'bottom', coral));
  expect(pullsOf(both).map(({ face, ink, pull }) => `${face} ${pull} ${ink.id}`)).toEqual([
    'bottom 1 coral',
    'bottom 2 key',
    'top 1 coral',
    'top 2 key',
  ]);
  expect(runPlanInput(both).pulls.map((pull) => pull.face)).toEqual(['bottom', 'bottom', 'top', 'top']);
});
