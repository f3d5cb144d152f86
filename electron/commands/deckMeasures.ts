import { checkDeck, type Deck } from '../../core/deck/index.ts';
import { optionTrouble } from '../../core/sentences/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { choiceOf, type Given, lengthOf, numberOf, type OptionSpec } from './options.ts';

interface Measure {
  readonly name: string;
  readonly help: string;
  readonly least: number;
  readonly most: number;
  readonly unit: 'mm' | '°';
  get(deck: Deck): number;
  put(deck: Deck, value: number): Deck;
}

/** Bounds are those of the document, but for the depth: one that no deck has is refused by what is wrong with it. */
const across: readonly Measure[] = [
  {
    name: 'width',
    help: 'the deck, rail to rail',
    least: 60,
    most: 500,
    unit: 'mm',
    get: (d) => d.width,
    put(d, width) {
      const { outline } = d;
      if (outline.kind === 'path') return { ...d, width };
      const share = width / d.width;
      const end = (e: typeof outline.nose) => ({ ...e, width: e.width * share });
      return { ...d, width, outline: { ...outline, nose: end(outline.nose), tail: end(outline.tail) } };
    },
  },
  {
    name: 'depth',
    help: 'concave: straightedge across the rails, gap at the centre',
    least: 0,
    most: 5000,
    unit: 'mm',
    get: (d) => d.concave.depth,
    put: (d, depth) => ({ ...d, concave: { ...d.concave, depth } }),
  },
  {
    name: 'thickness',
    help: 'the wood',
    least: 2,
    most: 40,
    unit: 'mm',
    get: (d) => d.thickness,
    put: (d, thickness) => ({ ...d, thickness }),
  },
  {
    name: 'flat-width',
    help: 'flat strip in the middle of a flat-centre concave',
    least: 0,
    most: 400,
    unit: 'mm',
    get: (d) => (d.concave.profile === 'flat-centre' ? d.concave.flatWidth : 0),
    put: (d, flatWidth) => ({
      ...d,
      concave: { ...d.concave, flatWidth, profile: flatWidth > 0 ? 'flat-centre' : 'radial' },
    }),
  },
];

const length = (
  name: string,
  help: string,
  [least, most]: readonly [number, number],
  get: Measure['get'],
  put: Measure['put'],
): Measure => ({ name, help, least, most, unit: 'mm', get, put });

const along: readonly Measure[] = [
  length(
    'wheelbase',
    'between the inner truck holes',
    [100, 1200],
    (d) => d.wheelbase,
    (d, wheelbase) => ({ ...d, wheelbase }),
  ),
  length(
    'holes-along',
    'truck holes, centre to centre along the deck',
    [0, 150],
    (d) => d.holes.along,
    (d, value) => ({ ...d, holes: { ...d.holes, along: value } }),
  ),
  length(
    'holes-across',
    'truck holes, centre to centre across',
    [0, 150],
    (d) => d.holes.across,
    (d, value) => ({ ...d, holes: { ...d.holes, across: value } }),
  ),
  length(
    'fade',
    'length of each kick over which the concave falls to nothing',
    [0, 400],
    (d) => d.concave.fade,
    (d, fade) => ({ ...d, concave: { ...d.concave, fade } }),
  ),
  ...(['nose', 'tail'] as const).flatMap((end): Measure[] => [
    length(
      `${end}-length`,
      `outer truck holes to the ${end}'s tip, in plan`,
      [0, 600],
      (d) => d[`${end}Length`],
      (d, value) => ({ ...d, [`${end}Length`]: value }),
    ),
    length(
      `${end}-start`,
      `outer truck holes to where the ${end} begins to bend`,
      [0, 300],
      (d) => d[end].start,
      (d, start) => ({ ...d, [end]: { ...d[end], start } }),
    ),
    length(
      `${end}-radius`,
      `radius of the ${end}'s bend on the top`,
      [0, 2000],
      (d) => d[end].radius,
      (d, radius) => ({ ...d, [end]: { ...d[end], radius } }),
    ),
    {
      name: `${end}-angle`,
      help: `degrees the ${end} rises by`,
      least: 0,
      most: 60,
      unit: '°',
      get: (d) => d[end].angleDeg,
      put: (d, angleDeg) => ({ ...d, [end]: { ...d[end], angleDeg } }),
    },
  ]),
];

const MEASURES = [...across, ...along];
const PROFILES = ['radial', 'flat-centre'] as const;

/** Every measure of a deck as an option; each not given is the deck's own. */
export const DECK_MEASURES: readonly OptionSpec[] = [
  ...MEASURES.map(
    ({ name, help, unit }): OptionSpec => ({
      name,
      value: unit === '°' ? 'DEGREES' : 'LENGTH',
      help: `${help} (the deck’s)`,
    }),
  ),
  { name: 'profile', value: 'radial|flat-centre', help: 'shape of the concave (the deck’s)' },
];

const camel = (name: string) => name.replace(/-(.)/g, (_, c: string) => c.toUpperCase());

/** What was measured along the deck, by name, to be said back. Lengths mm, angles degrees. */
export function measuresOf(deck: Deck): Record<string, number | string> {
  const said: Record<string, number | string> = { deck: deck.name, profile: deck.concave.profile };
  for (const { name, unit, get } of MEASURES) said[`${camel(name)}${unit === '°' ? 'Deg' : ''}`] = get(deck);
  return said;
}

/**
 * The deck with the measures that were given. One that can not be made of wood is refused; where only the section
 * across was given, what is asked of that section alone decides.
 */
export function measuredDeck(given: Given, base: Deck, whole: boolean): Outcome<Deck> {
  let deck = base;
  let check = whole;
  for (const { name, unit, least, most, put } of MEASURES) {
    if (!given.flag(name)) continue;
    const read =
      unit === '°' ? numberOf(given, name, { least, most }) : lengthOf(given, name, { least, most });
    if (!read.ok) return read;
    if (base.outline.kind === 'path' && ['width', 'nose-length', 'tail-length'].includes(name) && whole)
      return optionTrouble.ownOutline(name);
    deck = put(deck, read.value as number);
    check ||= along.some((m) => m.name === name);
  }
  const profile = choiceOf(given, 'profile', PROFILES);
  if (!profile.ok) return profile;
  if (profile.value) deck = { ...deck, concave: { ...deck.concave, profile: profile.value } };
  return check ? checkDeck(deck) : done(deck);
}

/** What is assumed about the deck's measures that were not given. */
export function assumedOf(given: Given, deck: Deck): string[] {
  const missing = MEASURES.filter(({ name }) => !given.flag(name)).length;
  return missing > 0 ? [`Measures of the deck that were not given are those of ${deck.name}.`] : [];
}
