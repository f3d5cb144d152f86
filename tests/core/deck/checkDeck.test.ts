import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  checkDeck,
  type Deck,
  DeckSchema,
  deckTemplate,
  outlineRing,
  ringArea,
  TEMPLATES,
} from '../../../core/deck/index.ts';
import { anyDeck, PLAIN } from './anyDeck.ts';

test('every template is a deck by the schema and can be made of wood', () => {
  expect(TEMPLATES.length).toBeGreaterThanOrEqual(8);
  for (const { name, deck } of TEMPLATES) {
    expect(DeckSchema.safeParse(deck).success, name).toBe(true);
    expect(checkDeck(deck), name).toMatchObject({ ok: true });
    expect(ringArea(outlineRing(deck, 'top'))).toBeGreaterThan(0);
    expect(deckTemplate(name)).toBe(deck);
  }
});

test('templates have sizes decks come in', () => {
  // Widths 7.125 to 10 in, 8.25 in the commonest; popsicles 31 to 33 in long: published shop guides.
  for (const { name, deck } of TEMPLATES) {
    const xs = outlineRing(deck, 'bottom').map((p) => p[0]);
    const ys = outlineRing(deck, 'bottom').map((p) => p[1]);
    const length = (Math.max(...xs) - Math.min(...xs)) / 25.4;
    const width = (Math.max(...ys) - Math.min(...ys)) / 25.4;
    expect(width).toBeCloseTo(deck.width / 25.4, 3);
    expect(width).toBeGreaterThan(7.125);
    expect(width).toBeLessThan(10);
    if (name.startsWith('popsicle')) {
      expect(length).toBeGreaterThanOrEqual(31);
      expect(length).toBeLessThanOrEqual(33);
    }
  }
  expect(deckTemplate('popsicle-8.25')?.width).toBeCloseTo(209.55, 9);
});

test('plausible decks pass', () => {
  fc.assert(
    fc.property(anyDeck(fc.constantFrom(0, 80)), (deck) => {
      expect(checkDeck(deck)).toMatchObject({ ok: true });
    }),
    { numRuns: 300, seed: 5 },
  );
});

test.each<[string, Partial<Deck>, RegExp]>([
  ['concave deeper than half the width', { width: 100, concave: { ...PLAIN.concave, depth: 55 } }, /deep/],
  [
    'a flat strip wider than the deck',
    { concave: { profile: 'flat-centre', depth: 9, flatWidth: 220, fade: 0 } },
    /strip/,
  ],
  ['a bend tighter than the rail rises', { nose: { start: 25, radius: 8, angleDeg: 20 } }, /fold/],
  ['holes outside the outline', { wheelbase: 360, noseLength: 1 }, /nose|hole/],
  ['holes wider than the deck', { holes: { along: 54, across: 140, diameter: 5 }, width: 120 }, /hole/],
  [
    'a kick that begins beyond the tip',
    { nose: { start: 200, radius: 100, angleDeg: 20 } },
    /beyond its tip/,
  ],
  ['a bend that ends beyond the tip', { tail: { start: 100, radius: 600, angleDeg: 30 } }, /beyond its tip/],
])('%s is refused', (_, change, reason) => {
  const checked = checkDeck({ ...PLAIN, ...change });
  expect(checked).toMatchObject({ ok: false, kind: 'input', reason: expect.stringMatching(reason) });
});

test('a path outline may not cross itself', () => {
  const points: [number, number][] = [
    [-390, -100],
    [390, 100],
    [390, -100],
    [-390, 100],
  ];
  expect(checkDeck({ ...PLAIN, outline: { kind: 'path', points, source: '' } })).toMatchObject({
    ok: false,
    reason: expect.stringMatching(/crosses itself/),
  });
});
