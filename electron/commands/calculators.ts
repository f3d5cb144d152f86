import { type Deck, FACES, type Face } from '../../core/deck/index.ts';
import { type Calculation, curvedSqueegee, meshGrowth, reach, sectionOf } from '../../core/press/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { choiceOf, type Given, lengthOf, numberOf, type OptionSpec } from './options.ts';

/** A number of a result in words: where it lies, what it is called, and its unit. */
export interface Row {
  readonly path: readonly string[];
  readonly label: string;
  readonly unit: 'mm' | '%' | '×' | '';
}

export interface Calculator {
  readonly name: string;
  readonly does: string;
  /** Names of the options it takes beside the deck's own. */
  readonly options: readonly OptionSpec[];
  run(given: Given, deck: Deck): Outcome<{ readonly inputs: object; readonly found: Calculation<object> }>;
  readonly rows: readonly Row[];
}

const LENGTHS = { least: 0, most: 5000 };
const FACE: OptionSpec = { name: 'face', value: 'bottom|top', help: 'the face that is printed (bottom)' };
const SECTION: readonly OptionSpec[] = [
  FACE,
  { name: 'width', value: 'LENGTH', help: 'the deck, rail to rail (the deck’s)' },
  {
    name: 'depth',
    value: 'LENGTH',
    help: 'concave: straightedge across the rails, gap at the centre (the deck’s)',
  },
  { name: 'thickness', value: 'LENGTH', help: 'the wood (the deck’s)' },
  { name: 'flat-width', value: 'LENGTH', help: 'flat strip in the middle of the concave (the deck’s)' },
  { name: 'blade', value: 'LENGTH', help: 'squeegee blade across the deck (180mm)' },
];
const OFF_CONTACT: OptionSpec = {
  name: 'off-contact',
  value: 'LENGTH',
  help: 'mesh over the highest wood (3mm)',
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

function section(given: Given, deck: Deck) {
  const face = choiceOf(given, 'face', FACES);
  if (!face.ok) return face;
  const own = sectionOf(deck, face.value ?? 'bottom');
  const read = lengths(given, {
    width: own.width,
    depth: own.depth,
    thickness: own.thickness,
    'flat-width': own.flatWidth ?? 0,
    blade: 180,
  });
  if (!read.ok) return read;
  const { width, depth, thickness, blade } = read.value;
  return done({ face: own.face, width, depth, thickness, flatWidth: read.value['flat-width'], blade });
}

const growth: Calculator = {
  name: 'growth',
  does: 'how much the mesh grows across the deck when the squeegee presses it down',
  options: [
    ...SECTION,
    OFF_CONTACT,
    { name: 'frame', value: 'LENGTH', help: 'inside the frame, across the deck (400mm)' },
  ],
  run(given, deck) {
    const across = section(given, deck);
    if (!across.ok) return across;
    const read = lengths(given, { 'off-contact': 3, frame: 400 });
    if (!read.ok) return read;
    const inputs = { ...across.value, frame: read.value.frame, offContact: read.value['off-contact'] };
    const found = meshGrowth(inputs);
    return found.ok ? done({ inputs, found: found.value }) : found;
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
    return found.ok ? done({ inputs, found: found.value }) : found;
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
  does: 'how far out along the kicks the mesh can be pressed down',
  options: [
    FACE,
    OFF_CONTACT,
    { name: 'frame-length', value: 'LENGTH', help: 'inside the frame, along the deck (1060mm)' },
    { name: 'max-stretch', value: 'SHARE', help: 'share of its length the mesh may stretch (0.03)' },
  ],
  run(given, deck) {
    const face = choiceOf(given, 'face', FACES);
    if (!face.ok) return face;
    const read = lengths(given, { 'frame-length': 1060, 'off-contact': 3 });
    if (!read.ok) return read;
    const stretch = numberOf(given, 'max-stretch', { least: 0.0001, most: 0.5 });
    if (!stretch.ok) return stretch;
    const side: Face = face.value ?? 'bottom';
    const input = {
      frameLength: read.value['frame-length'],
      offContact: read.value['off-contact'],
      maxStretch: stretch.value ?? 0.03,
    };
    const found = reach(deck, side, input);
    return found.ok ? done({ inputs: { deck: deck.name, face: side, ...input }, found: found.value }) : found;
  },
  rows: [
    { path: ['nose', 'reach'], label: 'reach to the nose, from mid-wheelbase', unit: 'mm' },
    { path: ['tail', 'reach'], label: 'reach to the tail', unit: 'mm' },
    { path: ['growthAtMiddle'], label: 'growth along at the middle', unit: '%' },
    { path: ['nose', 'growth'], label: 'growth at the nose', unit: '%' },
    { path: ['tail', 'growth'], label: 'growth at the tail', unit: '%' },
  ],
};

export const CALCULATORS: readonly Calculator[] = [squeegee, growth, reachOf];
