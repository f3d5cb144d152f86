import fc from 'fast-check';
import { expect, test } from 'vitest';
import { blanksFor, countRun, emulsionAmount, inkAmount, innerFrame } from '../../../core/press/index.ts';

const got = <T>(o: { ok: true; value: { result: T } } | { ok: false; reason: string }): T => {
  if (!o.ok) throw new Error(o.reason);
  return o.value.result;
};
const ink = { inkedCm2: 400, inkVolume: 30, passes: 2, decks: 25, waste: 0.2, density: 1.25, potMl: 50 };

test('ink by hand: 0.04 m² × 30 cm³/m² × 2 × 25 × 1.2 = 72 ml, 90 g, two pots of 50', () => {
  const { ml, grams, pots, mlPerDeck } = got(inkAmount(ink));
  expect(ml).toBeCloseTo(72, 9);
  expect(grams).toBeCloseTo(90, 9);
  expect(mlPerDeck).toBeCloseTo(2.4, 9);
  expect(pots).toBe(2);
});

test('ink is linear in area and in decks, seed 3', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.1, max: 3000, noNaN: true }),
      fc.integer({ min: 1, max: 200 }),
      fc.integer({ min: 1, max: 9 }),
      (inkedCm2, decks, k) => {
        const one = got(inkAmount({ ...ink, inkedCm2, decks })).ml;
        expect(got(inkAmount({ ...ink, inkedCm2: inkedCm2 * k, decks })).ml / one).toBeCloseTo(k, 9);
        expect(got(inkAmount({ ...ink, inkedCm2, decks: decks * k })).ml / one).toBeCloseTo(k, 9);
      },
    ),
    { seed: 3 },
  );
});

test('emulsion by hand: 30 × 100 cm, both sides, 2 coats of 25 µm, 4 screens: 120 ml, and a fifth lost', () => {
  const { ml, coatedCm2 } = got(
    emulsionAmount({ width: 300, length: 1000, screens: 4, coats: 2, wetUm: 25, waste: 0.2 }),
  );
  expect(coatedCm2).toBe(6000);
  // 0.6 m² × 50e-6 m = 30 ml a screen.
  expect(ml).toBeCloseTo(4 * 30 * 1.2, 9);
});

test('blanks: the fewest that leave enough, by trying', () => {
  for (const good of [1, 7, 24, 50])
    for (const pulls of [0, 1, 5, 8])
      for (const spoil of [0, 0.01, 0.05, 0.2]) {
        let tried = good;
        while (tried * (1 - spoil) ** pulls < good - 1e-6) tried++;
        expect(blanksFor(good, pulls, spoil)).toBe(tried);
      }
});

test('counts and cost a deck by hand', () => {
  const found = got(
    countRun({
      lots: [
        { veneer: 'maple', colourway: 'as drawn', decks: 10 },
        { veneer: 'teal', colourway: 'lilac', decks: 6 },
      ],
      pulls: 2,
      spoilPerPull: 0.1,
      sheets: [4, 3],
      goods: [
        { name: 'white', amount: 260, unit: 'ml', pack: 100, price: 9 },
        { name: 'tape', amount: 2, unit: 'rolls', pack: 1, price: null },
      ],
      deckPrice: 20,
    }),
  );
  // 10/0.81 = 12.3 and 6/0.81 = 7.4.
  expect(found.lots.map((l) => l.start)).toEqual([13, 8]);
  expect(found).toMatchObject({ good: 16, start: 21, films: 2, sheets: 7, screens: 2, unpriced: ['tape'] });
  expect(found.cost).toBe(21 * 20 + 3 * 9);
  expect(found.costPerDeck).toBeCloseTo(447 / 16, 12);
});

test('the frame holds film, blade and margins', () => {
  const { width, length } = got(
    innerFrame({ filmLength: 860, filmWidth: 210, blade: 180, sideMargin: 60, inkWell: 90 }),
  );
  expect([width, length]).toEqual([330, 1040]);
});

test('bad numbers are refused in a sentence', () => {
  expect(inkAmount({ ...ink, decks: 2.5 })).toMatchObject({ ok: false });
  expect(inkAmount({ ...ink, inkedCm2: Number.POSITIVE_INFINITY })).toMatchObject({ ok: false });
  expect(emulsionAmount({ width: -1, length: 1, screens: 1, coats: 1, wetUm: 1, waste: 0 }).ok).toBe(false);
});
