import { ENOUGH_READINGS } from '../../core/loggedRegister.ts';
import { type RegisterReading, registerCorrection } from '../../core/press/index.ts';
import { optionTrouble } from '../../core/sentences/index.ts';
import { learnTolerance, type RegisterReading as MissReading } from '../../core/trap/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import type { Calculator } from './calculator.ts';

/** Numbers parted by commas; an empty place is null. */
function numbers(text: string, least: number, most: number, what: string): Outcome<(number | null)[]> {
  const parts = text.split(',').map((part) => part.trim());
  const read = parts.map((part) =>
    part === '' ? null : /^[+-]?(\d+\.?\d*|\.\d+)$/.test(part) ? Number(part) : Number.NaN,
  );
  if (parts.length < least || parts.length > most || read.some((n) => n !== null && !Number.isFinite(n)))
    return optionTrouble.notNumbers(text.slice(0, 60), what);
  return done(read);
}

const register: Calculator = {
  name: 'register',
  does: 'how far each hinge clamp moves, from vernier readings at two to four marks',
  example:
    'kickflat calc register --mark -380,0,0.3,-0.2 --mark 380,0,0.3,0.4 --mark 0,110,0.2,0.1 --clamps -265,-230 265,-230',
  options: [
    {
      name: 'mark',
      value: 'X,Y,ALONG,ACROSS',
      many: true,
      help: 'a mark’s place and how far the later pull lies from the first, mm: to the nose, and up as seen nose right; leave a reading empty where the mark has no such scale',
    },
    { name: 'clamps', value: 'X,Y', many: true, help: 'the two hinge clamps (-265,-230 265,-230)' },
  ],
  run(given) {
    const readings: RegisterReading[] = [];
    for (const text of given.texts('mark')) {
      const read = numbers(text, 3, 4, 'reading of a mark');
      if (!read.ok) return read;
      const [x, y, along, across] = read.value;
      if (x == null || y == null) return optionTrouble.markWithoutPlace(text);
      readings.push({ x, y, ...(along == null ? {} : { along }), ...(across == null ? {} : { across }) });
    }
    if (readings.length === 0) return optionTrouble.noMark();
    const places: [number, number][] = [];
    for (const text of given.texts('clamps')) {
      const read = numbers(text, 2, 2, 'place of a clamp');
      if (!read.ok) return read;
      places.push([read.value[0] ?? 0, read.value[1] ?? 0]);
    }
    if (places.length === 0) places.push([-265, -230], [265, -230]);
    const [first, second] = places;
    if (!first || !second || places.length > 2) return optionTrouble.notTwoClamps();
    const inputs = { readings, clamps: [first, second] as const };
    const found = registerCorrection(inputs);
    if (!found.ok) return found;
    const { result } = found.value;
    return done({
      inputs,
      found: {
        ...found.value,
        result: {
          ...result,
          turnDeg: (result.turnRad * 180) / Math.PI,
          words: `\n  ${result.clamps.map((c) => c.words).join('\n  ')}`,
        },
      },
    });
  },
  rows: [
    { path: ['words'], label: 'do', unit: '' },
    { path: ['shift', '0'], label: 'screen moves to the nose', unit: 'mm' },
    { path: ['shift', '1'], label: 'screen moves up as seen', unit: 'mm' },
    { path: ['turnDeg'], label: 'screen turns, counter-clockwise', unit: '°' },
    { path: ['rms'], label: 'left over', unit: 'mm' },
    { path: ['advice'], label: 'which means', unit: '' },
  ],
};

const tolerance: Calculator = {
  name: 'tolerance',
  does: 'how far your pulls stray, from how far they lay off on printed decks',
  example:
    'kickflat calc tolerance --reading coral:0.2,-0.1 coral:0.3,0 coral:0.1,-0.3 blue:1.1,0.4 blue:1.3,0.5',
  options: [
    {
      name: 'reading',
      value: '[SCREEN:]ALONG,ACROSS',
      many: true,
      help: 'how far one pull lay off, mm: to the nose, and up as seen nose right; name the screen where there are several',
    },
  ],
  run(given) {
    const screens = new Map<string, MissReading[]>();
    for (const text of given.texts('reading')) {
      const [, screen = '', pair = ''] = /^(?:([^:]{1,60}):)?([^:]*)$/.exec(text) ?? [];
      const read = numbers(pair, 2, 2, 'reading of a pull');
      if (!read.ok) return read;
      const [dx, dy] = read.value;
      if (dx == null || dy == null) return optionTrouble.readingLacksNumber(text);
      screens.set(screen, [...(screens.get(screen) ?? []), { dx, dy }]);
    }
    const learned = learnTolerance([...screens.values()]);
    if (!learned) return optionTrouble.noSecondReading();
    return done({
      inputs: { screens: Object.fromEntries(screens) },
      found: {
        result: learned,
        formula:
          'distance of each reading from the mean of its screen, widened by √(n / (n − 1)); the 95th percentile by nearest rank',
        assumptions: [
          'how a screen sits on average is mended with its clamps, and is no straying',
          `from ${ENOUGH_READINGS} readings on the figure can be leant on; fewer are a hint`,
        ],
      },
    });
  },
  rows: [
    { path: ['toleranceMm'], label: 'pulls stray by up to (19 in 20)', unit: 'mm³' },
    { path: ['deviation', 'dx'], label: 'standard deviation along', unit: 'mm³' },
    { path: ['deviation', 'dy'], label: 'standard deviation across', unit: 'mm³' },
    { path: ['readings'], label: 'readings', unit: '' },
    { path: ['screens'], label: 'screens', unit: '' },
  ],
};

export const REGISTER_CALCULATORS: readonly Calculator[] = [register, tolerance];
