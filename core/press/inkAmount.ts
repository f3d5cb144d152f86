import { done, type Outcome } from '../units/index.ts';
import { outOfBounds } from './bounds.ts';
import type { Calculation } from './calculation.ts';
import { USUAL, usualWords } from './usual.ts';

export interface InkAmountInput {
  /** cm² the film prints on one deck. */
  readonly inkedCm2: number;
  /** cm³/m², the mesh's theoretical ink volume; see `meshFigures`. */
  readonly inkVolume: number;
  /** Printing strokes a deck. */
  readonly passes: number;
  readonly decks: number;
  /** Share more than the decks take: 0.25 is a quarter. */
  readonly waste: number;
  /** g/ml. */
  readonly density: number;
  /** ml in a pot as it is sold. */
  readonly potMl: number;
}

export interface InkAmount {
  readonly ml: number;
  readonly grams: number;
  readonly mlPerDeck: number;
  readonly pots: number;
}

/** Ink for a pull over the whole run. */
export function inkAmount(input: InkAmountInput): Outcome<Calculation<InkAmount>> {
  const { inkedCm2, inkVolume, passes, decks, waste, density, potMl } = input;
  const bad = outOfBounds({
    'inked area': [inkedCm2, { least: 0, most: 100_000, unit: 'cm²' }],
    'ink volume': [inkVolume, { least: 0, most: 2000, unit: 'cm³/m²' }],
    'number of passes': [passes, { least: 1, most: 50, unit: '', whole: true }],
    'number of decks': [decks, { least: 0, most: 100_000, unit: '', whole: true }],
    waste: [waste, { least: 0, most: 20, unit: '' }],
    density: [density, { least: 0.3, most: 8, unit: 'g/ml' }],
    'pot size': [potMl, { least: 1, most: 100_000, unit: 'ml' }],
  });
  if (bad) return bad;
  const mlPerDeck = (inkedCm2 / 10_000) * inkVolume * passes;
  const ml = mlPerDeck * decks * (1 + waste);
  return done({
    result: { ml, grams: ml * density, mlPerDeck, pots: Math.ceil(ml / potMl - 1e-9) },
    formula:
      'ml = area [m²] × ink volume [cm³/m²] × passes × decks × (1 + waste); g = ml × density; pots = ⌈ml / pot⌉',
    assumptions: [
      'All the ink the open mesh holds goes to the wood, on every pass: an upper bound, since some stays in the mesh.',
      usualWords('Usual waste', USUAL.waste),
      usualWords('Usual density', USUAL.density),
    ],
  });
}
