import { expect, test } from 'vitest';
import { runCounts } from '../../../core/runCounts.ts';
import { newRun } from './newRun.ts';

const job = (press = {}) => {
  const run = newRun();
  return {
    ...run,
    press: {
      ...run.press,
      spoilPerPull: 0,
      waste: 0,
      lots: [{ veneerId: 'natural', colourwayId: null, decks: 10 }],
      ...press,
    },
  };
};
const films = [
  { face: 'bottom' as const, inkId: 'coral', inkedCm2: 500, sheets: 3 },
  { face: 'bottom' as const, inkId: 'key', inkedCm2: 250, sheets: 4 },
];
const counts = (press = {}) => {
  const made = runCounts(job(press), films);
  if (!made.ok) throw new Error(made.reason);
  return made.value;
};

test('ink follows the films’ inked area, and what to buy is said in whole pots, sheets and decks', () => {
  const { inks, shopping, count } = counts();
  expect(inks.map((ink) => ink.name)).toEqual(['coral (bottom)', 'key (bottom)']);
  // Both through the same mesh: half the area takes half the ink.
  expect(inks[1]!.ml).toBeCloseTo(inks[0]!.ml / 2, 9);
  expect(Object.fromEntries(shopping)).toMatchObject({
    'Blank decks': '10 decks',
    'Film sheets, and some spare': '7 sheets',
    Screens: '2 (2 films)',
    'coral (bottom)': expect.stringMatching(/1 pot of 500 ml/),
  });
  expect(count.costPerDeck).toBeNull();
});

test('a deck costs its blank, its share of the pots and of the film, worked by hand', () => {
  const { count } = counts({
    deckPrice: 14,
    sheetPrice: 0.5,
    inkUse: { 'bottom coral': { price: 20 }, 'bottom key': { price: 12 } },
  });
  // 10 × 14 + 20 + 12 + 7 × 0.5 = 175.5, over ten decks.
  expect(count.cost).toBeCloseTo(175.5, 9);
  expect(count.costPerDeck).toBeCloseTo(17.55, 9);
  expect(count.unpriced).toEqual([]);
});

test('films that are not known yet are left out, not guessed', () => {
  const made = runCounts(job(), films.slice(0, 1));
  if (!made.ok) throw new Error(made.reason);
  expect(made.value.inks).toHaveLength(1);
  expect(made.value.count.sheets).toBe(3);
});
