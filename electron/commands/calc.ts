import { optionTrouble } from '../../core/sentences/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import type { Row } from './calculator.ts';
import { CALCULATORS } from './calculators.ts';
import type { Command } from './context.ts';
import { chooseDeck } from './deckChoice.ts';
import { type CommandSpec, type OptionSpec, unknown } from './options.ts';
import { sayJson } from './say.ts';

const DECK: OptionSpec = {
  name: 'deck',
  value: 'TEMPLATE|FILE',
  help: 'the deck whose measurements are used where none are given',
};

/** All options of all calculators, each once, with what it means to which of them. */
function allOptions(): OptionSpec[] {
  const options = new Map<string, { spec: OptionSpec; of: Map<string, string[]> }>();
  for (const { name, options: own } of CALCULATORS)
    for (const spec of own) {
      const entry = options.get(spec.name) ?? { spec, of: new Map<string, string[]>() };
      entry.of.set(spec.help, [...(entry.of.get(spec.help) ?? []), name]);
      options.set(spec.name, entry);
    }
  return [...options.values()].map(({ spec, of }) => ({
    ...spec,
    help: [...of].map(([help, names]) => `${help} [${names.join(', ')}]`).join('; '),
  }));
}

export const spec: CommandSpec = {
  name: 'calc',
  takes: ['CALCULATOR'],
  does: `works out one thing: ${CALCULATORS.map((c) => c.name).join(', ')}`,
  more: CALCULATORS.map((c) => `${c.name}: ${c.does}.`),
  options: [
    DECK,
    ...allOptions(),
    { name: 'json', help: 'prints inputs, result, formula and assumptions, unrounded' },
  ],
  examples: CALCULATORS.map((c) => c.example),
};

function valueAt(result: object, { path }: Row): unknown {
  return path.reduce<unknown>((at, key) => (at as Record<string, unknown> | null)?.[key], result);
}

/** Rounded as a person can use it: hundredths of a mm are finer than any wood. */
function said(value: unknown, unit: Row['unit']): string | null {
  if (value === null || value === undefined) return null;
  if (typeof value !== 'number') return String(value);
  if (unit === '' || unit === '×') return String(Number(value.toFixed(unit === '' ? 3 : 5)));
  if (unit === 'mm³') return `${value.toFixed(3)} mm`;
  if (unit === '°') return `${value.toFixed(3)}°`;
  if (unit !== '%' && unit !== 'mm') return `${value.toFixed(Math.abs(value) >= 100 ? 0 : 1)} ${unit}`;
  if (unit === '%') return `${(value * 100).toFixed(3)} %`;
  return `${value.toFixed(Math.abs(value) >= 100 ? 1 : 2)} mm`;
}

export const run: Command = async (given, context): Promise<Outcome<0>> => {
  const name = given.words[0] as string;
  const calculator = CALCULATORS.find((c) => c.name === name);
  if (!calculator)
    return unknown(
      'calculator',
      name,
      CALCULATORS.map((c) => c.name),
      '',
    );
  const takes = new Set([...calculator.options, DECK].map((o) => o.name).concat('json'));
  const stray = spec.options.find((o) => given.flag(o.name) && !takes.has(o.name));
  if (stray)
    return optionTrouble.calculatorTakesNo(name, stray.name, [...takes].map((t) => `--${t}`).join(', '));
  const deck = await chooseDeck(context, given.text('deck'));
  if (!deck.ok) return deck;
  const worked = calculator.run(given, deck.value);
  if (!worked.ok) return worked;
  const { inputs, found } = worked.value;
  if (given.flag('json')) {
    sayJson(context.voice, { inputs, ...found });
    return done(0);
  }
  const width = Math.max(...calculator.rows.map((row) => row.label.length));
  for (const row of calculator.rows) {
    const text = said(valueAt(found.result, row), row.unit);
    if (text !== null) context.voice.out(`${row.label.padEnd(width)}  ${text}\n`);
  }
  context.voice.out(`\n${found.formula}\n${found.assumptions.map((a) => `- ${a}\n`).join('')}`);
  return done(0);
};
