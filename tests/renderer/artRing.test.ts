import { expect, test } from 'vitest';
import { deckTemplate, makeSurface } from '../../core/deck/index.ts';
import type { Art } from '../../core/job/index.ts';
import { artRing } from '../../renderer/workers/jobCheck.ts';

const deck = deckTemplate('popsicle-8.25')!;
const piece = { x: 40, y: -10, width: 120, height: 60, rotationDeg: 90, wrap: 'surface' } as Art;

test('turned by a quarter, a piece is as tall as it was wide, about its own middle', () => {
  const ring = artRing(deck, 'bottom', piece);
  const xs = ring.map((p) => p[0]);
  const ys = ring.map((p) => p[1]);
  expect(Math.min(...xs)).toBeCloseTo(10, 9);
  expect(Math.max(...xs)).toBeCloseTo(70, 9);
  expect(Math.min(...ys)).toBeCloseTo(-70, 9);
  expect(Math.max(...ys)).toBeCloseTo(50, 9);
});

test('a piece that lies in plan reaches further along the wood where a kick rises', () => {
  const onKick = { ...piece, x: 330, rotationDeg: 0, wrap: 'plan' } as Art;
  const reach = Math.max(...artRing(deck, 'bottom', onKick).map((p) => p[0]));
  expect(reach).toBeGreaterThan(390);
  // The same point carried over by the surface itself.
  expect(reach).toBeCloseTo(makeSurface(deck, 'bottom').toSurface({ x: 390, y: -40 }).s, 0);
});
