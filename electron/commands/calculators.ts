import { type Deck, FACES } from '../../core/deck/index.ts';
import { type Calculation, curvedSqueegee, meshGrowth, reach, sectionOf } from '../../core/press/index.ts';
import { optionTrouble } from '../../core/sentences/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import type { Calculator } from './calculator.ts';
import { assumedOf, DECK_MEASURES, measuredDeck, measuresOf } from './deckMeasures.ts';
import { choiceOf, type Given, lengthOf, numberOf, type OptionSpec } from './options.ts';
import { REGISTER_CALCULATORS } from './registerCalculators.ts';
import { RUN_CALCULATORS } from './runCalculators.ts';
import { SCREEN_CALCULATORS } from './screenCalculators.ts';

const LENGTHS = { least: 0, most: 5000 };
const FACE: OptionSpec = { name: 'face', value: 'bottom|top', help: 'the face that is printed (bottom)' };
const SECTION: readonly OptionSpec[] = [
  FACE,
  ...DECK_MEASURES,
  { name: 'blade', value: 'LENGTH', help: 'squeegee blade across the deck (180mm)' },
];
const OFF_CONTACT: OptionSpec = {
  name: 'off-contact',
  value: 'LENGTH',
  help: 'mesh over the highest wood (3mm)',
};

const FRAME: OptionSpec = {
  name: 'frame',
  value: 'LENGTH',
  help: 'inside the frame: across the deck for growth (400mm), along it for reach (1060mm)',
};

/** Lengths by option name, each as given or by its default. */
function lengths<K extends string>(
  given: Given,
  defaults: Readonly<Record<K, number>>,
): Outcome<Record<K, number>> {
  const out = { ...defaults } as Record<K, number>;
  for (const name of Object.keys(defaults) as K[]) {
    const length = lengthOf(given, name, LENGTHS);
    if (!length.ok) return length;
    if (length.value !== undefined) out[name] = length.value;
  }
  return done(out);
}

function section(given: Given, base: Deck) {
  const face = choiceOf(given, 'face', FACES);
  if (!face.ok) return face;
  const deck = measuredDeck(given, base, false);
  if (!deck.ok) return deck;
  const { width, depth, thickness, flatWidth } = sectionOf(deck.value, face.value ?? 'bottom');
  const read = lengths(given, { blade: 180 });
  if (!read.ok) return read;
  const side = face.value ?? 'bottom';
  return done({ face: side, width, depth, thickness, flatWidth: flatWidth ?? 0, blade: read.value.blade });
}

/** What was found, with what was assumed of the deck said first. */
const withAssumed = (given: Given, deck: Deck, found: Calculation<object>): Calculation<object> => ({
  ...found,
  assumptions: [...assumedOf(given, deck), ...found.assumptions],
});

/** A share of a length: 0.03 or 3%. */
function shareOf(given: Given, name: string, otherwise: number): Outcome<number> {
  const text = given.text(name)?.trim();
  if (text === undefined) return done(otherwise);
  const percent = /^([\d.]+)\s*%$/.exec(text)?.[1];
  const share = percent === undefined ? Number(text) : Number(percent) / 100;
  if (text !== '' && share >= 0.0001 && share <= 0.5) return done(share);
  return optionTrouble.notShare(name, text.slice(0, 40));
}

const growth: Calculator = {
  name: 'growth',
  example: 'kickflat calc growth --deck popsicle-8.25 --frame 400mm --off-contact 3mm',
  does: 'how much the mesh grows across the deck when the squeegee presses it down',
  options: [...SECTION, OFF_CONTACT, FRAME],
  run(given, deck) {
    const across = section(given, deck);
    if (!across.ok) return across;
    const read = lengths(given, { 'off-contact': 3, frame: 400 });
    if (!read.ok) return read;
    const inputs = { ...across.value, frame: read.value.frame, offContact: read.value['off-contact'] };
    const found = meshGrowth(inputs);
    return found.ok ? done({ inputs, found: withAssumed(given, deck, found.value) }) : found;
  },
  rows: [
    { path: ['growth'], label: 'growth across', unit: '%' },
    { path: ['filmScale'], label: 'film over print', unit: '×' },
    { path: ['path'], label: 'mesh, frame to frame', unit: 'mm' },
    { path: ['radius'], label: 'radius of the face', unit: 'mm' },
    { path: ['bladeRise'], label: 'rise under the blade', unit: 'mm' },
  ],
};

const squeegee: Calculator = {
  name: 'squeegee',
  example: 'kickflat calc squeegee --deck popsicle-8.25 --blade 180mm --plies 4',
  does: 'the curved squeegee that fits the concave, and the form to bend its handle on',
  options: [
    ...SECTION,
    { name: 'plies', value: 'N', help: 'equal plies the handle is laminated from (4)' },
    {
      name: 'have-rise',
      value: 'LENGTH',
      help: 'rise of the edge of a squeegee at hand; 0 for a straight one',
    },
  ],
  run(given, deck) {
    const across = section(given, deck);
    if (!across.ok) return across;
    const plies = numberOf(given, 'plies', { least: 2, most: 50, whole: true });
    if (!plies.ok) return plies;
    const have = lengthOf(given, 'have-rise', { least: -100, most: 100 });
    if (!have.ok) return have;
    const inputs = {
      ...across.value,
      plies: plies.value ?? 4,
      ...(have.value === undefined ? {} : { haveRise: have.value }),
    };
    const found = curvedSqueegee(inputs);
    return found.ok ? done({ inputs, found: withAssumed(given, deck, found.value) }) : found;
  },
  rows: [
    { path: ['edge'], label: 'edge', unit: '' },
    { path: ['radius'], label: 'radius of the edge', unit: 'mm' },
    { path: ['rise'], label: 'middle to the line between the ends', unit: 'mm' },
    { path: ['edgeLength'], label: 'length along the edge', unit: 'mm' },
    { path: ['endGap'], label: 'gap at the ends of the one at hand', unit: 'mm' },
    { path: ['formRadius'], label: 'radius of the bending form', unit: 'mm' },
  ],
};

const reachOf: Calculator = {
  name: 'reach',
  example: 'kickflat calc reach --deck popsicle-8.25 --face top --max-stretch 0.03',
  does: 'how far out along the kicks the mesh can be pressed down',
  options: [
    FACE,
    ...DECK_MEASURES,
    OFF_CONTACT,
    FRAME,
    { name: 'frame-length', value: 'LENGTH', help: 'the same as --frame for reach' },
    { name: 'max-stretch', value: 'SHARE', help: 'share of its length the mesh may stretch (0.03)' },
  ],
  run(given, base) {
    const face = choiceOf(given, 'face', FACES);
    if (!face.ok) return face;
    const deck = measuredDeck(given, base, true);
    if (!deck.ok) return deck;
    if (given.flag('frame') && given.flag('frame-length')) return optionTrouble.frameTwice();
    const read = lengths(given, { 'off-contact': 3, frame: 1060, 'frame-length': 1060 });
    if (!read.ok) return read;
    const stretch = shareOf(given, 'max-stretch', 0.03);
    if (!stretch.ok) return stretch;
    const side = face.value ?? 'bottom';
    const input = {
      frameLength: read.value[given.flag('frame') ? 'frame' : 'frame-length'],
      offContact: read.value['off-contact'],
      maxStretch: stretch.value,
    };
    const found = reach(deck.value, side, input);
    if (!found.ok) return found;
    const inputs = { face: side, ...measuresOf(deck.value), ...input };
    return done({ inputs, found: withAssumed(given, base, found.value) });
  },
  rows: [
    { path: ['nose', 'reach'], label: 'reach to the nose, from mid-wheelbase', unit: 'mm' },
    { path: ['tail', 'reach'], label: 'reach to the tail', unit: 'mm' },
    { path: ['growthAtMiddle'], label: 'growth along at the middle', unit: '%' },
    { path: ['nose', 'growth'], label: 'growth at the nose', unit: '%' },
    { path: ['tail', 'growth'], label: 'growth at the tail', unit: '%' },
  ],
};

export const CALCULATORS: readonly Calculator[] = [
  squeegee,
  growth,
  reachOf,
  ...SCREEN_CALCULATORS,
  ...RUN_CALCULATORS,
  ...REGISTER_CALCULATORS,
];
