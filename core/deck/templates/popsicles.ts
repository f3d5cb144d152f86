import type { Deck } from '../deck.ts';
import type { Template } from './template.ts';
import { inch, MODERN_HOLES, SEVEN_PLIES } from './usual.ts';

/**
 * Widths: most decks are 7.5 to 8.5 in wide and 31 to 33 in long, 8.25 the commonest (published shop guides). Wheelbase
 * about 14 in (published), 13.5 to 15 in; nose 6.5 to 7.25 in, tail 6.25 to 7 in from the outer holes; concave 6 to
 * 14 mm; kicks 18 to 24°, the nose a little the steeper (each common practice, no source).
 */
const popsicle = (width: number, wheelbase: number, nose: number, tail: number, depth: number): Template => {
  const deck: Deck = {
    name: `popsicle-${width === 8 ? '8.0' : width}`,
    outline: {
      kind: 'parametric',
      nose: { length: inch(width) * 1.02, exponent: 2.3, width: 0 },
      tail: { length: inch(width) * 0.97, exponent: 2.25, width: inch(width) - 1.5 },
      waist: 0,
    },
    width: inch(width),
    noseLength: inch(nose),
    tailLength: inch(tail),
    wheelbase: inch(wheelbase),
    holes: MODERN_HOLES,
    thickness: SEVEN_PLIES,
    concave: { profile: 'radial', depth, flatWidth: 0, fade: 0 },
    nose: { start: 25, radius: 110, angleDeg: 21 },
    tail: { start: 25, radius: 110, angleDeg: 20 },
  };
  return { name: deck.name, title: `Popsicle ${width === 8 ? '8.0' : width} in`, deck };
};

export const popsicles: readonly Template[] = [
  popsicle(7.75, 13.875, 6.75, 6.375, 8.5),
  popsicle(8, 14, 6.875, 6.5, 9),
  popsicle(8.25, 14.25, 7, 6.5, 9.5),
  popsicle(8.5, 14.375, 7, 6.625, 10),
  popsicle(8.75, 14.5, 7.125, 6.75, 10),
];
