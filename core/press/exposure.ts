import { done, type Mm, type Outcome } from '../units/index.ts';
import { outOfBounds } from './bounds.ts';
import type { Calculation } from './calculation.ts';
import { USUAL, usualWords } from './usual.ts';

const TIME = { least: 0.1, most: 86_400, unit: 's' };
const STEP = { least: 1, most: 41, unit: '' };

export interface ExposureInput {
  /** Seconds the last screen was burned for. */
  readonly time: number;
  /** The last step of the tablet that stayed solid, and the one wanted. Both or neither. */
  readonly stepRead?: number;
  readonly targetStep?: number;
  /** Density a step; 0.15 on a 21-step tablet. */
  readonly stepDensity?: number;
  /** mm from lamp to glass, then and now. Both or neither; only for a lamp small against the distance. */
  readonly distance?: Mm;
  readonly newDistance?: Mm;
  /** The mesh changed: from white to dyed, or back. */
  readonly mesh?: 'same' | 'to-dyed' | 'to-white';
  readonly dyedFactor?: number;
  /** Any other change, as a factor: a thicker coat, an older tube. */
  readonly factor?: number;
}

export interface Exposure {
  /** Seconds. */
  readonly time: number;
  readonly factors: {
    readonly tablet: number;
    readonly distance: number;
    readonly mesh: number;
    readonly other: number;
  };
}

/** Exposure factor of a number of tablet steps: each lets through 10^−density of the light. */
export const tabletFactor = (steps: number, stepDensity: number = USUAL.stepDensity.value): number =>
  10 ** (stepDensity * steps);

/** The corrected exposure: tablet reading, lamp distance, dyed mesh and any other factor, multiplied. */
export function exposureTime(input: ExposureInput): Outcome<Calculation<Exposure>> {
  const target = input.targetStep ?? USUAL.targetStep.value;
  const density = input.stepDensity ?? USUAL.stepDensity.value;
  const from = input.distance ?? input.newDistance ?? 1;
  const to = input.newDistance ?? from;
  const dyed = input.dyedFactor ?? USUAL.dyedMesh.value;
  const bad = outOfBounds({
    'exposure time': [input.time, TIME],
    'step read': [input.stepRead ?? target, STEP],
    'step wanted': [target, STEP],
    'density of a step': [density, { least: 0.01, most: 1, unit: '' }],
    'lamp distance': [from, { least: 1, most: 20_000, unit: 'mm' }],
    'new lamp distance': [to, { least: 1, most: 20_000, unit: 'mm' }],
    'factor of dyed mesh': [dyed, { least: 0.1, most: 20, unit: '' }],
    factor: [input.factor ?? 1, { least: 0.01, most: 100, unit: '' }],
  });
  if (bad) return bad;
  const factors = {
    tablet: input.stepRead === undefined ? 1 : tabletFactor(target - input.stepRead, density),
    distance: (to / from) ** 2,
    mesh: input.mesh === 'to-dyed' ? dyed : input.mesh === 'to-white' ? 1 / dyed : 1,
    other: input.factor ?? 1,
  };
  const assumptions = ['Light and time make up for each other over the range (reciprocity).'];
  if (input.stepRead !== undefined)
    assumptions.push(
      usualWords('A step', USUAL.stepDensity),
      usualWords('Wanted', USUAL.targetStep),
      'A tablet is true to about a third of a stop at its dense end, so correct, burn again and read again.',
    );
  if (input.newDistance !== undefined)
    assumptions.push(
      'Inverse square law of a lamp small against its distance; it does not hold for tubes or LED panels close to the glass.',
    );
  if (factors.mesh !== 1) assumptions.push(usualWords('Dyed mesh', USUAL.dyedMesh));
  return done({
    result: {
      time: input.time * factors.tablet * factors.distance * factors.mesh * factors.other,
      factors,
    },
    formula:
      'new time = time × 10^(density a step × (wanted − read)) × (new distance / distance)² × mesh factor × other factor',
    assumptions,
  });
}
