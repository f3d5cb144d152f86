import { pressTrouble } from '../sentences/index.ts';
import { done, type Outcome } from '../units/index.ts';
import { outOfBounds } from './bounds.ts';
import type { Calculation } from './calculation.ts';
import { USUAL, usualWords } from './usual.ts';

export interface StepTestInput {
  /** Seconds the middle strip shall get. */
  readonly middle: number;
  /** From strip to strip. */
  readonly factor: number;
  readonly strips: number;
}

export interface StepTest {
  readonly strips: readonly {
    /** From 1, the least light first. */
    readonly strip: number;
    /** Seconds of light in all. */
    readonly time: number;
    /** Seconds to burn with this strip and all before it… see `order`. */
    readonly burn: number;
  }[];
  /** What to do with the card, in order. */
  readonly order: readonly string[];
}

const seconds = (s: number): string => (s < 10 ? s.toFixed(1) : String(Math.round(s)));

/**
 * A step test with nothing but a sheet of card: everything open at first, then one strip after the other covered, so
 * that each later strip has had more light. Times rise by `factor` about the middle strip.
 */
export function stepTest(input: StepTestInput): Outcome<Calculation<StepTest>> {
  const { middle, factor, strips } = input;
  const bad = outOfBounds({
    'middle exposure': [middle, { least: 0.5, most: 36_000, unit: 's' }],
    'factor from strip to strip': [factor, { least: 1.01, most: 4, unit: '' }],
    'number of strips': [strips, { least: 3, most: 15, unit: '', whole: true }],
  });
  if (bad) return bad;
  const times = Array.from({ length: strips }, (_, i) => middle * factor ** (i - (strips - 1) / 2));
  const list = times.map((time, i) => ({
    strip: i + 1,
    time,
    burn: i === 0 ? time : time - (times[i - 1] as number),
  }));
  return done({
    result: {
      strips: list,
      order: list.map(({ strip, burn }) =>
        strip === 1
          ? `Nothing covered: burn ${seconds(burn)} s.`
          : `Lamp off, cover strip${strip === 2 ? ' 1' : `s 1 to ${strip - 1}`} with card, burn ${seconds(burn)} s more.`,
      ),
    },
    formula: 'time of strip i = middle × factor^(i − (strips + 1)/2); burn i = time i − time (i − 1)',
    assumptions: [
      usualWords('Usual factor', USUAL.stepFactor),
      'Card holds back all light, and the lamp comes up at once: let a slow lamp warm up behind a shutter.',
    ],
  });
}

/** The time of the strip that washed out best. `strip` may lie between two strips. */
export function stepTestReading(
  input: StepTestInput & { readonly strip: number },
): Outcome<Calculation<{ readonly time: number; readonly atEdge: boolean }>> {
  const { strip, strips, middle, factor } = input;
  const worked = stepTest(input);
  if (!worked.ok) return worked;
  if (!(strip >= 1 && strip <= strips)) return pressTrouble.noSuchStrip(strip, strips);
  const atEdge = strip <= 1 || strip >= strips;
  return done({
    result: { time: middle * factor ** (strip - (strips + 1) / 2), atEdge },
    formula: 'time = middle × factor^(strip − (strips + 1)/2)',
    assumptions: atEdge
      ? ['The best strip is the first or the last: the true time may lie outside, so test again about it.']
      : [
          'The best strip keeps the finest line and the finest gap, and its emulsion does not soften in the wash.',
        ],
  });
}
