import fc from 'fast-check';
import { expect, test } from 'vitest';
import { deckLength, endLength, FACES, straightEndLength } from '../../../core/deck/index.ts';
import { anyDeck, PLAIN } from './anyDeck.ts';

test('straight and along the board, worked by hand', () => {
  // Plan: wheelbase, both hole patterns, nose and tail.
  expect(deckLength(PLAIN, 'straight')).toBeCloseTo(360 + 2 * 53.975 + 178 + 165, 9);
  // Nose on the top: 25 mm flat, an arc of 110 mm through 21°, then a ramp whose plan is what is left over.
  const turn = (21 * Math.PI) / 180;
  const ramp = (178 - 25 - 110 * Math.sin(turn)) / Math.cos(turn);
  expect(endLength(PLAIN, 'nose', 'along')).toBeCloseTo(25 + 110 * turn + ramp, 9);
  // The bottom's arc is 11 mm wider: 121 mm.
  const below = (178 - 25 - 121 * Math.sin(turn)) / Math.cos(turn);
  expect(endLength(PLAIN, 'nose', 'along', 'bottom')).toBeCloseTo(25 + 121 * turn + below, 9);
  expect(endLength(PLAIN, 'tail', 'straight')).toBe(165);
});

test('along the board is never shorter, is the sum of its parts, and comes back straight', () => {
  fc.assert(
    fc.property(anyDeck(fc.constantFrom(0, 80)), fc.constantFrom(...FACES), (deck, face) => {
      const along = deckLength(deck, 'along', face);
      expect(along).toBeGreaterThanOrEqual(deckLength(deck, 'straight') - 1e-9);
      const ends = (['nose', 'tail'] as const).map((end) => endLength(deck, end, 'along', face));
      expect(ends[0]! + ends[1]! + deck.wheelbase + 2 * deck.holes.along).toBeCloseTo(along, 6);
      expect(straightEndLength(deck, 'nose', ends[0]!, face)).toBeCloseTo(deck.noseLength, 9);
      expect(straightEndLength(deck, 'tail', ends[1]!, face)).toBeCloseTo(deck.tailLength, 9);
    }),
    { seed: 11 },
  );
});
