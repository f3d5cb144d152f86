import fc from 'fast-check';
import type { Deck } from '../../../core/deck/index.ts';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const kick = fc.record({ start: between(5, 40), radius: between(60, 300), angleDeg: between(0, 30) });

/** Decks over the whole plausible range of sizes, concaves and kicks; all pass `checkDeck`. */
export const anyDeck = (fade: fc.Arbitrary<number> = fc.constant(0)): fc.Arbitrary<Deck> =>
  fc
    .record({
      width: between(180, 260),
      wheelbase: between(290, 660),
      depth: fc.oneof(fc.constant(0), between(0.01, 18)),
      profile: fc.constantFrom('radial' as const, 'flat-centre' as const),
      flatWidth: between(20, 100),
      thickness: between(6, 14),
      fade,
      nose: kick,
      tail: kick,
    })
    .map(({ width, wheelbase, depth, profile, flatWidth, thickness, fade: length, nose, tail }) => ({
      name: 'any',
      outline: {
        kind: 'parametric',
        nose: { length: 200, exponent: 2.3, width: 0 },
        tail: { length: 200, exponent: 2.3, width: 0 },
        waist: 0,
      },
      width,
      wheelbase,
      noseLength: 220,
      tailLength: 215,
      holes: { along: 53.975, across: 41.275, diameter: 4.7625 },
      thickness,
      concave: { profile, depth, flatWidth, fade: length },
      nose,
      tail,
    }));

/** The commonest deck, with a plain radial concave. */
export const PLAIN: Deck = {
  name: 'plain',
  outline: {
    kind: 'parametric',
    nose: { length: 210, exponent: 2.3, width: 0 },
    tail: { length: 210, exponent: 2.3, width: 0 },
    waist: 0,
  },
  width: 200,
  wheelbase: 360,
  noseLength: 178,
  tailLength: 165,
  holes: { along: 53.975, across: 41.275, diameter: 4.7625 },
  thickness: 11,
  concave: { profile: 'radial', depth: 10, flatWidth: 0, fade: 0 },
  nose: { start: 25, radius: 110, angleDeg: 21 },
  tail: { start: 25, radius: 110, angleDeg: 20 },
};
