import type { Calculation } from '../../core/press/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { type Given, lengthOf, numberOf, type OptionSpec } from './options.ts';

/** One number a calculator takes: its option, the key it has among the inputs, and its default. */
export interface Field {
  readonly name: string;
  readonly key: string;
  readonly help: string;
  readonly kind: 'length' | 'number';
  readonly least: number;
  readonly most: number;
  readonly whole?: boolean;
  /** Absent: left out unless it is given. */
  readonly otherwise?: number;
}

const keyOf = (name: string): string => name.replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase());

/** A plain number. */
export const count = (
  name: string,
  help: string,
  bounds: { readonly least: number; readonly most: number; readonly whole?: boolean },
  otherwise?: number,
  key = keyOf(name),
): Field => ({
  name,
  key,
  help,
  kind: 'number',
  ...bounds,
  ...(otherwise === undefined ? {} : { otherwise }),
});

/** A length in any unit, mm inside. */
export const long = (name: string, help: string, otherwise?: number, key = keyOf(name)): Field => ({
  name,
  key,
  help,
  kind: 'length',
  least: 0,
  most: 20_000,
  ...(otherwise === undefined ? {} : { otherwise }),
});

/** The options of some fields, each with its default in the help. */
export const optionsOf = (fields: readonly Field[]): OptionSpec[] =>
  fields.map(({ name, kind, help, otherwise }) => ({
    name,
    value: kind === 'length' ? 'LENGTH' : 'N',
    help:
      otherwise === undefined
        ? help
        : `${help} (${Number(otherwise.toPrecision(4))}${kind === 'length' ? 'mm' : ''})`,
  }));

/** What was given for the fields, by key, with the defaults. */
export function readFields(given: Given, fields: readonly Field[]): Outcome<Record<string, number>> {
  const out: Record<string, number> = {};
  for (const field of fields) {
    const read =
      field.kind === 'length' ? lengthOf(given, field.name, field) : numberOf(given, field.name, field);
    if (!read.ok) return read;
    const value = (read.value as number | undefined) ?? field.otherwise;
    if (value !== undefined) out[field.key] = value;
  }
  return done(out);
}

/** What a calculator's `run` gives: its inputs as they were read, and what was found. */
export type Worked = Outcome<{ readonly inputs: object; readonly found: Calculation<object> }>;

/** The `run` of a calculator that hands its fields, read by key, to one function of the core. */
export const straight =
  <I extends object>(fields: readonly Field[], work: (inputs: I) => Outcome<Calculation<object>>) =>
  (given: Given): Worked => {
    const read = readFields(given, fields);
    if (!read.ok) return read;
    const inputs = read.value as unknown as I;
    const found = work(inputs);
    return found.ok ? done({ inputs, found: found.value }) : found;
  };
