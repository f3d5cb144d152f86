import { done, type Outcome } from '../units/index.ts';
import { outOfBounds } from './bounds.ts';
import type { Calculation } from './calculation.ts';
import { USUAL, usualWords } from './usual.ts';

export interface CountInput {
  /** Good decks wanted, by veneer and colourway. */
  readonly lots: readonly { readonly veneer: string; readonly colourway: string; readonly decks: number }[];
  readonly pulls: number;
  /** Share of the decks a pull spoils. */
  readonly spoilPerPull: number;
  /** Sheets of each film. */
  readonly sheets: readonly number[];
  /** Things to buy, with the price of one where it is known. */
  readonly goods: readonly {
    readonly name: string;
    /** Amount wanted over the run, in `unit`. */
    readonly amount: number;
    readonly unit: string;
    /** How much of it one purchase holds. */
    readonly pack: number;
    /** Price of a pack in the user's own money; null: not known. */
    readonly price: number | null;
  }[];
  /** Price of a blank deck; null: not known. */
  readonly deckPrice: number | null;
}

export interface RunCount {
  readonly lots: readonly {
    readonly veneer: string;
    readonly colourway: string;
    readonly good: number;
    /** Blanks to start with, so that as many stay good as wanted. */
    readonly start: number;
  }[];
  readonly good: number;
  readonly start: number;
  readonly films: number;
  readonly sheets: number;
  readonly screens: number;
  readonly shopping: readonly {
    readonly name: string;
    readonly amount: number;
    readonly unit: string;
    readonly packs: number;
    readonly cost: number | null;
  }[];
  /** All known costs together, and over the good decks; null when no price is known. */
  readonly cost: number | null;
  readonly costPerDeck: number | null;
  /** Goods without a price. */
  readonly unpriced: readonly string[];
}

/** Blanks that leave `good` decks after `pulls` pulls that each spoil a share. */
export const blanksFor = (good: number, pulls: number, spoil: number): number =>
  Math.ceil(good / (1 - spoil) ** pulls - 1e-9);

/** Decks, films, sheets, screens, what to buy and what a deck costs. */
export function countRun(input: CountInput): Outcome<Calculation<RunCount>> {
  const { lots, pulls, spoilPerPull, sheets, goods, deckPrice } = input;
  const bad = outOfBounds({
    'number of pulls': [pulls, { least: 0, most: 100, unit: '', whole: true }],
    spoilage: [spoilPerPull, { least: 0, most: 0.5, unit: 'of the decks a pull' }],
    'price of a deck': [deckPrice ?? 0, { least: 0, most: 1e9, unit: '' }],
    ...Object.fromEntries(
      lots.map((lot, i) => [
        `number of decks in lot ${i + 1}`,
        [lot.decks, { least: 0, most: 100_000, unit: '', whole: true }] as const,
      ]),
    ),
  });
  if (bad) return bad;
  const counted = lots.map(({ veneer, colourway, decks }) => ({
    veneer,
    colourway,
    good: decks,
    start: blanksFor(decks, pulls, spoilPerPull),
  }));
  const good = counted.reduce((n, lot) => n + lot.good, 0);
  const start = counted.reduce((n, lot) => n + lot.start, 0);
  const wanted = [{ name: 'blank decks', amount: start, unit: 'decks', pack: 1, price: deckPrice }, ...goods];
  const shopping = wanted.map(({ name, amount, unit, pack, price }) => {
    const packs = Math.ceil(amount / pack - 1e-9);
    return { name, amount, unit, packs, cost: price === null ? null : packs * price };
  });
  const priced = shopping.filter((item) => item.cost !== null);
  const cost = priced.length === 0 ? null : priced.reduce((sum, item) => sum + (item.cost ?? 0), 0);
  return done({
    result: {
      lots: counted,
      good,
      start,
      films: sheets.length,
      sheets: sheets.reduce((a, b) => a + b, 0),
      screens: sheets.length,
      shopping,
      cost,
      costPerDeck: cost === null || good === 0 ? null : cost / good,
      unpriced: shopping.filter((item) => item.cost === null).map((item) => item.name),
    },
    formula:
      'blanks = ⌈good / (1 − spoilage)^pulls⌉ a lot; packs = ⌈amount / pack⌉; cost a deck = Σ packs × price / good decks',
    assumptions: [
      usualWords('Usual spoilage', USUAL.spoilPerPull),
      'One screen a film; whole packs are bought. Films, frames and tools that stay with you count as you price them.',
    ],
  });
}
