import { deltaE00, hexOfLinear, labOfHex, labOfLinear, linearOfHex } from '../colour/index.ts';
import { type InkLook, lookOf } from '../proof/index.ts';

type Light = readonly [number, number, number];

/** The light of a solid pull over what has this light, by the proof's own model. */
function over(ink: InkLook, under: Light): Light {
  const look = lookOf(ink);
  const channel = (i: 0 | 1 | 2) => look[i].body + (look[i].through * under[i]) / (1 - look[i].r0 * under[i]);
  return [channel(0), channel(1), channel(2)];
}

/** How a solid pull looks over wood: #rrggbb, and how far that is from the ink's own colour, CIEDE2000. */
export interface Seen {
  readonly hex: string;
  readonly shift: number;
}

/** `under`: what was pulled before, the first on the wood; the ink itself is the last pull. */
export function seenOver(woodHex: string, under: readonly InkLook[], ink: InkLook): Seen {
  const light = [...under, ink].reduce<Light>((below, pull) => over(pull, below), linearOfHex(woodHex));
  return {
    hex: hexOfLinear(light),
    shift: deltaE00(labOfLinear(light), labOfHex(ink.hex)),
  };
}
