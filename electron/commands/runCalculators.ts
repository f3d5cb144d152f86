import {
  blanksFor,
  inkAmount,
  makeCalendar,
  meshFigures,
  planRun,
  USUAL,
  USUAL_HOURS,
  USUAL_TIMES,
} from '../../core/press/index.ts';
import { done } from '../../core/units/index.ts';
import { count, optionsOf, readFields, straight } from './calcFields.ts';
import type { Calculator } from './calculator.ts';
import { MESH_FIELDS, meshIn } from './screenCalculators.ts';

const inkFields = [
  count('area', 'cm² a film prints on one deck', { least: 0, most: 100_000 }, 400, 'inkedCm2'),
  ...MESH_FIELDS,
  count('ink-volume', 'cm³/m², from the mesh maker’s sheet (worked out)', { least: 0.1, most: 2000 }),
  count('passes', 'printing strokes a deck', { least: 1, most: 50, whole: true }, USUAL.passes.value),
  count('decks', 'decks', { least: 0, most: 100_000, whole: true }, 24),
  count('waste', 'share more than the decks take', { least: 0, most: 20 }, USUAL.waste.value),
  count('density', 'g/ml', { least: 0.3, most: 8 }, USUAL.density.value),
  count('pot', 'ml in a pot', { least: 1, most: 100_000 }, USUAL.potMl.value, 'potMl'),
];
const ink: Calculator = {
  name: 'ink',
  does: 'ink for one pull over the run',
  example: 'kickflat calc ink --area 410 --mesh 77 --passes 2 --decks 26',
  options: optionsOf(inkFields),
  run(given) {
    const read = readFields(given, inkFields);
    if (!read.ok) return read;
    const { countPerCm, threadUm, inkVolume, ...rest } = read.value;
    const mesh = meshIn({
      ...(countPerCm === undefined ? {} : { countPerCm }),
      ...(threadUm === undefined ? {} : { threadUm }),
    });
    const figures = meshFigures({ ...mesh, ...(inkVolume === undefined ? {} : { inkVolume }) });
    if (!figures.ok) return figures;
    const inputs = { ...rest, inkVolume: figures.value.result.inkVolume } as Parameters<typeof inkAmount>[0];
    const found = inkAmount(inputs);
    if (!found.ok) return found;
    const from = inkVolume === undefined ? figures.value.assumptions.slice(0, 3) : [];
    return done({
      inputs: { ...inputs, ...mesh },
      found: { ...found.value, assumptions: [...found.value.assumptions, ...from] },
    });
  },
  rows: [
    { path: ['ml'], label: 'ink', unit: 'ml' },
    { path: ['grams'], label: 'weight', unit: 'g' },
    { path: ['mlPerDeck'], label: 'a deck', unit: 'ml' },
    { path: ['pots'], label: 'pots to buy', unit: '' },
  ],
};

const blanksFields = [
  count('decks', 'good decks wanted', { least: 0, most: 100_000, whole: true }, 24),
  count('pulls', 'pulls on a deck, both faces', { least: 0, most: 48, whole: true }, 5),
  count('spoilage', 'share of the decks a pull spoils', { least: 0, most: 0.5 }, USUAL.spoilPerPull.value),
];
const blanks: Calculator = {
  name: 'blanks',
  does: 'blank decks to start with, so that enough stay good',
  example: 'kickflat calc blanks --decks 24 --pulls 7 --spoilage 0.02',
  options: optionsOf(blanksFields),
  run: straight(
    blanksFields,
    ({ decks, pulls, spoilage }: Readonly<Record<'decks' | 'pulls' | 'spoilage', number>>) => {
      const start = blanksFor(decks, pulls, spoilage);
      return done({
        result: { blanks: start, spare: start - decks },
        formula: 'blanks = ⌈good / (1 − spoilage)^pulls⌉',
        assumptions: [
          'Each pull spoils the same share, whatever its ink.',
          `Usual spoilage: ${USUAL.spoilPerPull.from}.`,
        ],
      });
    },
  ),
  rows: [
    { path: ['blanks'], label: 'blanks', unit: '' },
    { path: ['spare'], label: 'of them spare', unit: '' },
  ],
};

const whole = (least: number, most: number) => ({ least, most, whole: true });
const planFields = [
  count('decks', 'decks through the press', whole(0, 10_000), 26),
  count('bottom-pulls', 'inks on the bottom', whole(0, 24), 5),
  count('top-pulls', 'inks on the top', whole(0, 24), 2),
  count('frames', 'frames', whole(1, 200), 7),
  count('drying-places', 'places where screens dry', whole(1, 200), 4),
  count('exposure-units', 'exposure units', whole(1, 20), 1),
  count('people', 'people', whole(1, 20), 1),
  count('rack', 'decks the rack holds', whole(1, 10_000), 26),
  count('clear-coats', 'clear coats', whole(0, 20), 2),
  count('pull-minutes', 'minutes a deck a pull', { least: 0, most: 1000 }, USUAL_TIMES.pull, 'pull'),
  count('first-weekday', 'weekday it begins, 0 is Monday', whole(0, 6), 5),
];
const plan: Calculator = {
  name: 'plan',
  does: 'a schedule of the run over evenings and weekends',
  example: 'kickflat calc plan --decks 26 --bottom-pulls 5 --top-pulls 2 --frames 4 --rack 30',
  options: optionsOf(planFields),
  run(given) {
    const read = readFields(given, planFields);
    if (!read.ok) return read;
    const v = read.value as Record<string, number>;
    const at = (name: string) => v[name] as number;
    const pulls = [
      ...Array.from({ length: at('bottomPulls') }, (_, i) => ({
        face: 'bottom' as const,
        ink: `ink ${i + 1}`,
        colours: 1,
      })),
      ...Array.from({ length: at('topPulls') }, (_, i) => ({
        face: 'top' as const,
        ink: `ink ${i + 1}`,
        colours: 1,
      })),
    ];
    const inputs = {
      pulls,
      decks: at('decks'),
      times: { ...USUAL_TIMES, pull: at('pull') },
      hours: USUAL_HOURS,
      firstWeekday: at('firstWeekday'),
      frames: at('frames'),
      dryingPlaces: at('dryingPlaces'),
      exposureUnits: at('exposureUnits'),
      people: at('people'),
      rack: at('rack'),
      clearCoats: at('clearCoats'),
      finished: {},
      now: 0,
    };
    const found = planRun(inputs);
    if (!found.ok) return found;
    const calendar = makeCalendar(inputs.hours, inputs.firstWeekday);
    if (!calendar) throw new Error('The usual hours have working time.');
    const { result } = found.value;
    return done({
      inputs,
      found: {
        ...found.value,
        result: {
          ...result,
          days: result.end / 1440,
          overBound: result.atLeast > 0 ? result.end / result.atLeast - 1 : 0,
          list: `\n${result.placed
            .filter((_, i) => result.tasks[i]?.attended)
            .toSorted((a, b) => a.start - b.start)
            .map((p) => `  ${clock(p.start)}  ${result.tasks.find((t) => t.id === p.id)?.name}`)
            .join('\n')}`,
        },
      },
    });
  },
  rows: [
    { path: ['days'], label: 'days from the first midnight', unit: '' },
    { path: ['overBound'], label: 'over what no plan can beat, at most', unit: '%' },
    { path: ['list'], label: 'what to do', unit: '' },
  ],
};

/** `day 2 18:30`. */
const clock = (minutes: number): string => {
  const m = Math.round(minutes);
  const two = (n: number) => String(n).padStart(2, '0');
  return `day ${Math.floor(m / 1440) + 1} ${two(Math.floor((m % 1440) / 60))}:${two(m % 60)}`;
};

export const RUN_CALCULATORS: readonly Calculator[] = [ink, blanks, plan];
