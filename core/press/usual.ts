/** A value taken where the user has given none: where it comes from, and what to measure to replace it. */
export interface UsualValue {
  readonly value: number;
  readonly unit: string;
  readonly from: string;
  readonly better: string;
}

const PRACTICE = 'common practice, no source';

/** The press calculators' defaults. Each is only a start: the user's own figures replace them. */
export const USUAL = {
  threadUm: {
    value: 55,
    unit: 'µm',
    from: PRACTICE,
    better: 'read it from the mesh maker’s sheet: it stands behind the count, as in 77-55',
  },
  waste: {
    value: 0.25,
    unit: 'share',
    from: PRACTICE,
    better: 'weigh the pot before and after a run, and the ink that was on the decks is the rest',
  },
  density: {
    value: 1.25,
    unit: 'g/ml',
    from: PRACTICE,
    better: 'weigh a full measuring cup of the ink',
  },
  potMl: { value: 500, unit: 'ml', from: PRACTICE, better: 'read it from the pot' },
  passes: { value: 2, unit: 'strokes', from: PRACTICE, better: 'count the printing strokes of a good deck' },
  emulsionCoats: {
    value: 2,
    unit: 'coats on each side',
    from: PRACTICE,
    better: 'follow the emulsion maker’s sheet',
  },
  emulsionWetUm: {
    value: 30,
    unit: 'µm',
    from: PRACTICE,
    better: 'weigh a screen before and after coating: grams over cm² coated, over coats, times 10 000 is µm',
  },
  emulsionWaste: {
    value: 0.3,
    unit: 'share',
    from: PRACTICE,
    better: 'weigh what goes back from the trough into the pot',
  },
  testTime: {
    value: 60,
    unit: 's',
    from: PRACTICE,
    better: 'start from the time of the emulsion maker’s sheet for your lamp',
  },
  targetStep: {
    value: 7,
    unit: 'step',
    from: 'common practice: makers ask for a solid step 6 to 8',
    better: 'read the target on the emulsion maker’s sheet',
  },
  stepDensity: {
    value: 0.15,
    unit: 'density a step',
    from: 'G. Saxby, entry “densitometry”: step tablets usually run from 0 to 3 in steps of 0.15',
    better: 'read the tablet’s own sheet',
  },
  dyedMesh: {
    value: 1.75,
    unit: '×',
    from: 'common practice, no source: dyed mesh takes 1.5 to 2 times the light of white',
    better: 'burn a step test on each mesh',
  },
  stepFactor: {
    value: Math.SQRT2,
    unit: '×',
    from: 'half a stop a strip, as on a step tablet',
    better: 'take a smaller factor once the time is nearly known',
  },
  sideMargin: {
    value: 60,
    unit: 'mm',
    from: PRACTICE,
    better: 'leave what your mesh needs between blade and frame to come down softly',
  },
  inkWell: { value: 90, unit: 'mm', from: PRACTICE, better: 'measure the room your flood and squeegee take' },
  plies: { value: 4, unit: 'plies', from: PRACTICE, better: 'count the strips of the handle' },
  moireOrders: {
    value: 1,
    unit: 'threads',
    from: 'I. Amidror, The Theory of the Moiré Phenomenon (from memory): low orders are the strong ones',
    better: 'print a test patch',
  },
  visiblePeriod: {
    value: 1,
    unit: 'mm',
    from: PRACTICE,
    better: 'look at a test patch from where a deck is looked at',
  },
  spoilPerPull: {
    value: 0.01,
    unit: 'share a pull',
    from: PRACTICE,
    better: 'count spoiled decks in the log',
  },
  readingError: {
    value: 0.05,
    unit: 'mm',
    from: 'half the step of a vernier that reads to 0.1 mm',
    better: 'read the same print three times',
  },
} as const satisfies Readonly<Record<string, UsualValue>>;

/** How an assumption states a default that was used. */
export const usualWords = (name: string, { value, unit, from, better }: UsualValue): string =>
  `${name}: ${Number(value.toPrecision(6))} ${unit} (${from}). To do better, ${better}.`;
