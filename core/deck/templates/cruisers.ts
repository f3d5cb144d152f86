import type { Template } from './template.ts';
import { inch, MODERN_HOLES, OLDER_HOLES, SEVEN_PLIES } from './usual.ts';

/**
 * Old shapes are about 10 in at the widest with a 15 to 15.5 in wheelbase; freestyle decks 7.25 to 8 in wide, 26 to 30 in
 * long, wheelbase 11.5 to 13.75 in (each published). Other measures: common practice, no source.
 */
export const cruisers: readonly Template[] = [
  {
    name: 'pointed-9.5',
    title: 'Pointed nose 9.5 in',
    deck: {
      name: 'pointed-9.5',
      outline: {
        kind: 'parametric',
        nose: { length: 300, exponent: 1.75, width: 0 },
        tail: { length: 150, exponent: 2.9, width: inch(9) },
        waist: 0,
      },
      width: inch(9.5),
      noseLength: 118,
      tailLength: 165,
      wheelbase: inch(15.25),
      holes: OLDER_HOLES,
      thickness: SEVEN_PLIES,
      concave: { profile: 'flat-centre', depth: 9, flatWidth: 90, fade: 60 },
      nose: { start: 20, radius: 180, angleDeg: 9 },
      tail: { start: 30, radius: 110, angleDeg: 20 },
    },
  },
  {
    name: 'freestyle-7.5',
    title: 'Freestyle 7.5 in',
    deck: {
      name: 'freestyle-7.5',
      outline: {
        kind: 'parametric',
        nose: { length: 130, exponent: 3, width: inch(7.25) },
        tail: { length: 130, exponent: 3, width: inch(7.25) },
        waist: 0,
      },
      width: inch(7.5),
      noseLength: 150,
      tailLength: 146,
      wheelbase: inch(12.25),
      holes: MODERN_HOLES,
      thickness: SEVEN_PLIES,
      concave: { profile: 'radial', depth: 6, flatWidth: 0, fade: 0 },
      nose: { start: 25, radius: 110, angleDeg: 19 },
      tail: { start: 25, radius: 110, angleDeg: 18 },
    },
  },
  {
    name: 'cruiser-8.5',
    title: 'Short cruiser 8.5 in',
    deck: {
      name: 'cruiser-8.5',
      outline: {
        kind: 'parametric',
        nose: { length: 230, exponent: 2, width: 0 },
        tail: { length: 125, exponent: 2.8, width: inch(8.1) },
        waist: 0,
      },
      width: inch(8.5),
      noseLength: 92,
      tailLength: 150,
      wheelbase: inch(14),
      holes: MODERN_HOLES,
      thickness: SEVEN_PLIES,
      concave: { profile: 'radial', depth: 8, flatWidth: 0, fade: 50 },
      nose: { start: 20, radius: 200, angleDeg: 5 },
      tail: { start: 28, radius: 110, angleDeg: 18 },
    },
  },
  {
    name: 'longboard-9.5',
    title: 'Long board 9.5 in',
    deck: {
      name: 'longboard-9.5',
      outline: {
        kind: 'parametric',
        nose: { length: 400, exponent: 2, width: 0 },
        tail: { length: 300, exponent: 2.2, width: inch(9.3) },
        waist: 0,
      },
      width: inch(9.5),
      noseLength: 105,
      tailLength: 120,
      wheelbase: inch(25.5),
      holes: MODERN_HOLES,
      thickness: 12.7,
      concave: { profile: 'radial', depth: 7, flatWidth: 0, fade: 0 },
      nose: { start: 60, radius: 300, angleDeg: 0 },
      tail: { start: 40, radius: 140, angleDeg: 12 },
    },
  },
];
