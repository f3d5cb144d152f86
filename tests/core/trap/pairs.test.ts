import { describe, expect, test } from 'vitest';
import { type TrapInk, trapPairs } from '../../../core/trap/index.ts';

const ink = (id: string, hex: string, more: Partial<TrapInk> = {}): TrapInk => ({
  id,
  hex,
  opacity: 0.8,
  kind: 'opaque',
  role: 'colour',
  ...more,
});
const settings = { width: 0.5, pairs: [] };
/** `yellow>blue`: yellow runs into blue. */
const table = (inks: readonly TrapInk[], pairs: Parameters<typeof trapPairs>[1]['pairs'] = []) =>
  trapPairs(inks, { width: 0.5, pairs }).map(
    ({ spreads, under }) => `${inks[spreads]!.id}>${inks[under]!.id}`,
  );

/**
 * Lightness ladder: CIE L* of these sRGB colours, computed from IEC 61966-2-1 (100, 97.1, 91.1, 87.7, 67.1, 60.3, 53.6, 53.2,
 * 37.5, 32.3, 13.0, 2.7).
 */
const LIGHT_TO_DARK = [
  ['white', '#ffffff'],
  ['yellow', '#ffff00'],
  ['cyan', '#00ffff'],
  ['green', '#00ff00'],
  ['orange', '#ff8000'],
  ['magenta', '#ff00ff'],
  ['grey', '#808080'],
  ['red', '#ff0000'],
  ['brown', '#8b4513'],
  ['blue', '#0000ff'],
  ['navy', '#000080'],
  ['black', '#0a0a0a'],
] as const;

describe('published directions', () => {
  // "The lighter colour is extended under or over the darker, because the darker carries the visible shape": Sheffield
  // grafikhaus, "Knockout and overprint"; Melaschuk-Medien glossary, "Trapping – Choke"; page1printers glossary,
  // "Spreads and chokes".
  test('of two inks that let through, the lighter runs into the darker, whichever is pulled first', () => {
    for (let a = 0; a < LIGHT_TO_DARK.length; a++)
      for (let b = a + 1; b < LIGHT_TO_DARK.length; b++) {
        const [lightName, lightHex] = LIGHT_TO_DARK[a]!;
        const [darkName, darkHex] = LIGHT_TO_DARK[b]!;
        const [light, dark] = [ink(lightName, lightHex), ink(darkName, darkHex)];
        expect(table([light, dark])).toEqual([`${light.id}>${dark.id}`]);
        expect(table([dark, light])).toEqual([`${light.id}>${dark.id}`]);
      }
  });

  // "Light object on dark ground: spread; light ground round a dark object: choke": 4over4 help, "What is trapping".
  // Either way it is the light ink that grows, which is all a rule between two inks can say.
  test('a light object on dark ground spreads; a light ground chokes a dark object', () => {
    expect(table([ink('object', '#ffe14d'), ink('ground', '#202040')])).toEqual(['object>ground']);
    expect(table([ink('ground', '#ffe14d'), ink('object', '#202040')])).toEqual(['ground>object']);
  });

  // "Spread the lighter slightly under the darker" (screen print): Proadco, "Trapping".
  test('in the usual order, light to an opaque dark key, every lighter ink runs under the key', () => {
    const inks = [
      ink('yellow', '#f2b632'),
      ink('coral', '#e8613c'),
      ink('green', '#2f8f83'),
      ink('key', '#1b2440', { opacity: 0.97 }),
    ];
    expect(table(inks)).toEqual([
      'yellow>coral',
      'yellow>green',
      'yellow>key',
      'coral>green',
      'coral>key',
      'green>key',
    ]);
  });

  // Common practice, no source: a light opaque ink pulled last over dark shows its own edge, so the trap goes under it.
  test('a light ink that hides, pulled last, has the dark one run under it', () => {
    const inks = [ink('navy', '#000080'), ink('white', '#ffffff', { opacity: 0.95 })];
    expect(table(inks)).toEqual(['navy>white']);
  });
});

describe('the pair table', () => {
  test('hiding begins at an opacity of 0.9', () => {
    const last = (opacity: number) => table([ink('navy', '#000080'), ink('white', '#ffffff', { opacity })]);
    expect(last(0.9)).toEqual(['navy>white']);
    expect(last(0.8999)).toEqual(['white>navy']);
  });

  test('clear coats never trap', () => {
    const inks = [
      ink('yellow', '#ffff00'),
      ink('blue', '#0000ff'),
      ink('coat', '#ffffff', { kind: 'clear', opacity: 1 }),
    ];
    expect(table(inks)).toEqual(['yellow>blue']);
  });

  test('of two equally light inks the earlier runs under', () => {
    expect(table([ink('a', '#336699'), ink('b', '#336699')])).toEqual(['a>b']);
  });

  test('every two inks have one line, with the face’s width', () => {
    const inks = LIGHT_TO_DARK.map(([id, hex]) => ink(id, hex));
    const rules = trapPairs(inks, settings);
    expect(rules).toHaveLength((12 * 11) / 2);
    expect(rules.every((rule) => rule.widthMm === 0.5 && !rule.overridden && rule.why.endsWith('.'))).toBe(
      true,
    );
  });

  test('the printer may turn a pair round, set its width, or keep it butted', () => {
    const inks = [ink('yellow', '#ffff00'), ink('red', '#ff0000'), ink('blue', '#0000ff')];
    const rules = trapPairs(inks, {
      width: 0.5,
      pairs: [
        { a: 'yellow', b: 'red', spreads: 'b', width: 0.2 },
        { a: 'blue', b: 'yellow', spreads: 'none', width: null },
        { a: 'blue', b: 'red', spreads: 'b', width: null },
        { a: 'gone', b: 'red', spreads: 'a', width: 3 },
      ],
    });
    expect(
      rules.map(({ spreads, under, widthMm, overridden }) => [spreads, under, widthMm, overridden]),
    ).toEqual([
      [1, 0, 0.2, true],
      [0, 2, 0, true],
      [1, 2, 0.5, true],
    ]);
  });

  test('of several overrides for one pair the last counts', () => {
    const pairs = [
      { a: 'a', b: 'b', spreads: 'none', width: null },
      { a: 'b', b: 'a', spreads: 'a', width: 0.3 },
    ] as const;
    expect(table([ink('a', '#ffffff'), ink('b', '#000000')], pairs)).toEqual(['b>a']);
  });
});
