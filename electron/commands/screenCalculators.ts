import {
  adviseMesh,
  emulsionAmount,
  exposureTime,
  type FrameInput,
  type InkKind,
  innerFrame,
  type MoireInput,
  meshFigures,
  meshOfCount,
  moire,
  stepTest,
  stepTestReading,
  USUAL,
} from '../../core/press/index.ts';
import { optionTrouble } from '../../core/sentences/index.ts';
import { done } from '../../core/units/index.ts';
import { count, long, optionsOf, readFields, straight } from './calcFields.ts';
import type { Calculator } from './calculator.ts';
import { choiceOf } from './options.ts';

const KINDS: readonly InkKind[] = ['opaque', 'transparent', 'pearlescent', 'glow', 'metallic', 'clear'];

/** Count and thread: how every mesh is named. */
export const MESH_FIELDS = [
  count('mesh', 'threads per cm', { least: 5, most: 250 }, 77, 'countPerCm'),
  count(
    'thread',
    'thread diameter, µm (the table’s for this count)',
    { least: 5, most: 2000 },
    undefined,
    'threadUm',
  ),
];
const MAKER = [
  count(
    'opening',
    'mesh opening, µm, from the maker’s sheet',
    { least: 1, most: 2000 },
    undefined,
    'openingUm',
  ),
  count(
    'fabric',
    'fabric thickness, µm, from the maker’s sheet',
    { least: 1, most: 4000 },
    undefined,
    'thicknessUm',
  ),
];

/** The mesh that was meant: its thread from the table when none is given. */
export const meshIn = (read: Record<string, number>) => {
  const countPerCm = read.countPerCm ?? 77;
  return { ...read, countPerCm, threadUm: read.threadUm ?? meshOfCount(countPerCm).threadUm };
};

const meshFields = [
  ...MESH_FIELDS,
  ...MAKER,
  long('line', 'finest line on the film'),
  long('gap', 'finest gap on the film'),
  count('lpi', 'halftone ruling, lines an inch', { least: 5, most: 200 }),
];
const mesh: Calculator = {
  name: 'mesh',
  does: 'mesh geometry, and which meshes hold a film’s finest line, gap, halftone and ink',
  example: 'kickflat calc mesh --mesh 77 --line 0.3mm --gap 0.25mm --kind pearlescent',
  options: [
    ...optionsOf(meshFields),
    { name: 'kind', value: KINDS.join('|'), help: 'what the ink is (opaque)' },
  ],
  run(given) {
    const read = readFields(given, meshFields);
    if (!read.ok) return read;
    const kind = choiceOf(given, 'kind', KINDS);
    if (!kind.ok) return kind;
    const { line, gap, lpi, ...rest } = read.value;
    const chosen = meshIn(rest);
    const input = {
      chosen,
      line: line ?? null,
      gap: gap ?? null,
      kind: kind.value ?? ('opaque' as const),
      ...(lpi === undefined ? {} : { lpi }),
    };
    const figures = meshFigures(chosen);
    if (!figures.ok) return figures;
    const found = adviseMesh(input);
    if (!found.ok) return found;
    const { good, warnings, chosen: judged } = found.value.result;
    return done({
      inputs: input,
      found: {
        result: {
          ...judged.figures,
          holds: judged.good,
          warnings,
          good: good.map(({ countPerCm, threadUm, figures: f }) => ({ countPerCm, threadUm, ...f })),
          meshes:
            good.length === 0
              ? 'none of the table'
              : good.map((m) => `${m.countPerCm}-${m.threadUm}`).join(', '),
          trouble: warnings.length === 0 ? null : warnings.join(' '),
        },
        formula: `${figures.value.formula}; ${found.value.formula}`,
        assumptions: [...figures.value.assumptions, ...found.value.assumptions],
      },
    });
  },
  rows: [
    { path: ['opening'], label: 'opening', unit: 'mm³' },
    { path: ['openArea'], label: 'open area', unit: '%' },
    { path: ['thicknessUm'], label: 'fabric thickness', unit: 'µm' },
    { path: ['inkVolume'], label: 'theoretical ink volume', unit: 'cm³/m²' },
    { path: ['wetDepositUm'], label: 'wet deposit by rule', unit: 'µm' },
    { path: ['finestLine'], label: 'finest line or gap it holds', unit: 'mm³' },
    { path: ['trouble'], label: 'but', unit: '' },
    { path: ['meshes'], label: 'meshes that hold all, thickest ink first', unit: '' },
  ],
};

const moireFields = [
  count('mesh', 'threads per cm', { least: 5, most: 250 }, 77, 'meshPerCm'),
  count(
    'mesh-angle',
    'degrees of the threads to the centreline',
    { least: -180, most: 180 },
    0,
    'meshAngleDeg',
  ),
  count('lpi', 'halftone ruling, lines an inch', { least: 5, most: 200 }, 35),
  count(
    'angle',
    'degrees of the halftone to the centreline',
    { least: -180, most: 180 },
    22.5,
    'screenAngleDeg',
  ),
];
const moireOf: Calculator = {
  name: 'moire',
  does: 'the beat of mesh and halftone, and angles and rulings clear of it',
  example: 'kickflat calc moire --mesh 77 --lpi 35 --angle 22.5',
  options: optionsOf(moireFields),
  run: straight(moireFields, (inputs: MoireInput) => {
    const found = moire(inputs);
    if (!found.ok) return found;
    const { result } = found.value;
    const words = {
      clearAngles: result.angles.map((a) => `${a.angleDeg}° (${a.period.toFixed(2)} mm)`).join(', '),
      clearRulings: result.rulings.map((r) => `${r.lpi} lpi (${r.period.toFixed(2)} mm)`).join(', '),
      shows: result.seen ? 'yes' : 'no',
    };
    return done({ ...found.value, result: { ...result, ...words } });
  }),
  rows: [
    { path: ['worst', 'period'], label: 'slowest beat, period', unit: 'mm' },
    { path: ['worst', 'angleDeg'], label: 'its direction', unit: '°' },
    { path: ['shows'], label: 'likely seen', unit: '' },
    { path: ['clearAngles'], label: 'calmest angles to the threads', unit: '' },
    { path: ['clearRulings'], label: 'calmest rulings', unit: '' },
  ],
};

const exposureFields = [
  count('time', 'seconds of the last exposure', { least: 0.1, most: 86_400 }, USUAL.testTime.value),
  count('step-read', 'last solid step of the tablet', { least: 1, most: 41 }),
  count('target-step', 'step wanted', { least: 1, most: 41 }, USUAL.targetStep.value),
  count('step-density', 'density a step', { least: 0.01, most: 1 }, USUAL.stepDensity.value),
  long('distance', 'lamp to glass, then'),
  long('new-distance', 'lamp to glass, now'),
  count('dyed-factor', 'dyed mesh over white', { least: 0.1, most: 20 }, USUAL.dyedMesh.value),
  count('factor', 'any other change, as a factor', { least: 0.01, most: 100 }),
];
const MESHES = ['same', 'to-dyed', 'to-white'] as const;
const exposure: Calculator = {
  name: 'exposure',
  does: 'the corrected exposure from a step tablet, lamp distance and mesh change',
  example: 'kickflat calc exposure --time 60 --step-read 5 --distance 50cm --new-distance 75cm',
  options: [
    ...optionsOf(exposureFields),
    { name: 'mesh-change', value: MESHES.join('|'), help: 'from white to dyed mesh or back (same)' },
  ],
  run(given) {
    const read = readFields(given, exposureFields);
    if (!read.ok) return read;
    const change = choiceOf(given, 'mesh-change', MESHES);
    if (!change.ok) return change;
    const inputs = { ...(read.value as { time: number }), mesh: change.value ?? ('same' as const) };
    const found = exposureTime(inputs);
    return found.ok ? done({ inputs, found: found.value }) : found;
  },
  rows: [
    { path: ['time'], label: 'new exposure', unit: 's' },
    { path: ['factors', 'tablet'], label: 'for the tablet', unit: '×' },
    { path: ['factors', 'distance'], label: 'for the distance', unit: '×' },
    { path: ['factors', 'mesh'], label: 'for the mesh', unit: '×' },
  ],
};

const stepFields = [
  count('middle', 'seconds of the middle strip', { least: 0.5, most: 36_000 }, USUAL.testTime.value),
  count('strip-factor', 'from strip to strip', { least: 1.01, most: 4 }, USUAL.stepFactor.value, 'factor'),
  count('strips', 'strips on the film', { least: 3, most: 15, whole: true }, 9),
  count('best', 'the strip that came out best', { least: 1, most: 15 }, undefined, 'strip'),
];
const steps: Calculator = {
  name: 'step-test',
  does: 'a step test with only a sheet of card: what to burn and when; and the time of the best strip',
  example: 'kickflat calc step-test --middle 60 --strips 9 --best 6',
  options: optionsOf(stepFields),
  run(given) {
    const read = readFields(given, stepFields);
    if (!read.ok) return read;
    const { middle, factor, strips, strip } = read.value as {
      middle: number;
      factor: number;
      strips: number;
      strip?: number;
    };
    const inputs = { middle, factor, strips, ...(strip === undefined ? {} : { strip }) };
    const test = stepTest(inputs);
    if (!test.ok) return test;
    const reading = strip === undefined ? null : stepTestReading({ ...inputs, strip });
    if (reading && !reading.ok) return reading;
    const assumptions = [...test.value.assumptions, ...(reading?.ok ? reading.value.assumptions : [])];
    return done({
      inputs,
      found: {
        ...test.value,
        assumptions,
        result: {
          ...test.value.result,
          best: reading?.ok ? reading.value.result.time : null,
          times: test.value.result.strips.map((s) => `${s.time.toFixed(s.time < 20 ? 1 : 0)}`).join(', '),
          steps: `\n  ${test.value.result.order.join('\n  ')}`,
        },
      },
    });
  },
  rows: [
    { path: ['best'], label: 'exposure of the best strip', unit: 's' },
    { path: ['times'], label: 'seconds by strip', unit: '' },
    { path: ['steps'], label: 'with the card', unit: '' },
  ],
};

const emulsionFields = [
  long('width', 'coated field across', 400),
  long('length', 'coated field along', 1060),
  count('screens', 'screens', { least: 0, most: 1000, whole: true }, 1),
  count('coats', 'coats on each side', { least: 1, most: 20, whole: true }, USUAL.emulsionCoats.value),
  count('wet', 'µm a wet coat adds', { least: 1, most: 1000 }, USUAL.emulsionWetUm.value, 'wetUm'),
  count('emulsion-waste', 'share lost', { least: 0, most: 20 }, USUAL.emulsionWaste.value, 'waste'),
];
const emulsion: Calculator = {
  name: 'emulsion',
  does: 'emulsion for the screens of a run',
  example: 'kickflat calc emulsion --screens 7 --width 400mm --length 1060mm',
  options: optionsOf(emulsionFields),
  run: straight(emulsionFields, emulsionAmount),
  rows: [
    { path: ['ml'], label: 'emulsion', unit: 'ml' },
    { path: ['mlPerScreen'], label: 'a screen', unit: 'ml' },
    { path: ['coatedCm2'], label: 'coated a screen, both sides', unit: 'cm²' },
  ],
};

const frameFields = [
  long('film-length', 'film along the deck', 860),
  long('film-width', 'film across the deck', 215),
  long('blade', 'squeegee blade across the deck', 180),
  long('side-margin', 'between blade or film and the frame’s side', USUAL.sideMargin.value),
  long('ink-well', 'at each end, for ink and squeegee', USUAL.inkWell.value),
];
const frame: Calculator = {
  name: 'frame',
  does: 'the smallest inner frame for a film and its squeegee',
  example: 'kickflat calc frame --film-length 860mm --film-width 215mm --blade 180mm',
  options: optionsOf(frameFields),
  run: straight(frameFields, (inputs: FrameInput) =>
    inputs.blade > 0 ? innerFrame(inputs) : optionTrouble.frameWithoutBlade(),
  ),
  rows: [
    { path: ['width'], label: 'inside, across', unit: 'mm' },
    { path: ['length'], label: 'inside, along', unit: 'mm' },
    { path: ['offContact'], label: 'off-contact to start from', unit: 'mm' },
  ],
};

export const SCREEN_CALCULATORS: readonly Calculator[] = [mesh, moireOf, exposure, steps, emulsion, frame];
