import { done, type Mm, type Outcome } from '../units/index.ts';
import { outOfBounds } from './bounds.ts';
import type { Calculation } from './calculation.ts';
import { USUAL, usualWords } from './usual.ts';

export interface EmulsionInput {
  /** mm, the coated field of one screen. */
  readonly width: Mm;
  readonly length: Mm;
  readonly screens: number;
  /** Coats on each side. */
  readonly coats: number;
  /** µm a wet coat adds. */
  readonly wetUm: number;
  readonly waste: number;
}

/** Emulsion for all screens, both sides coated. */
export function emulsionAmount(
  input: EmulsionInput,
): Outcome<Calculation<{ readonly ml: number; readonly mlPerScreen: number; readonly coatedCm2: number }>> {
  const { width, length, screens, coats, wetUm, waste } = input;
  const bad = outOfBounds({
    'coated width': [width, { least: 0, most: 3000, unit: 'mm' }],
    'coated length': [length, { least: 0, most: 5000, unit: 'mm' }],
    'number of screens': [screens, { least: 0, most: 1000, unit: '', whole: true }],
    'number of coats': [coats, { least: 1, most: 20, unit: '', whole: true }],
    'wet thickness': [wetUm, { least: 1, most: 1000, unit: 'µm' }],
    waste: [waste, { least: 0, most: 20, unit: '' }],
  });
  if (bad) return bad;
  // Both sides.
  const coatedCm2 = (2 * width * length) / 100;
  // 1 cm² × 1 µm is 1e-4 cm³.
  const mlPerScreen = coatedCm2 * coats * wetUm * 1e-4 * (1 + waste);
  return done({
    result: { ml: mlPerScreen * screens, mlPerScreen, coatedCm2 },
    formula: 'ml = 2 sides × width × length × coats × wet thickness × screens × (1 + waste)',
    assumptions: [
      usualWords('Usual coats', USUAL.emulsionCoats),
      usualWords('Usual wet thickness', USUAL.emulsionWetUm),
      usualWords('Usual waste', USUAL.emulsionWaste),
    ],
  });
}
