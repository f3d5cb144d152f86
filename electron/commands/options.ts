import { optionTrouble } from '../../core/sentences/index.ts';
import { done, failureAt, type Mm, type Outcome, parseLength } from '../../core/units/index.ts';

/** One option of a command: long form only. */
export interface OptionSpec {
  readonly name: string;
  /** What stands for its value in the help; absent for a switch. */
  readonly value?: string;
  /** May take several values and be given several times. */
  readonly many?: boolean;
  readonly help: string;
}

export interface CommandSpec {
  readonly name: string;
  /** Positional words, as the help shows them: `JOB`, `[JOB]`. */
  readonly takes: readonly string[];
  readonly does: string;
  readonly options: readonly OptionSpec[];
  /** Further lines of its own help. */
  readonly more?: readonly string[];
  /** Commands to paste in the project's folder, in this order. */
  readonly examples: readonly string[];
}

/** What was typed, sorted by the command's own table. */
export interface Given {
  readonly words: readonly string[];
  text(name: string): string | undefined;
  texts(name: string): readonly string[];
  flag(name: string): boolean;
}

/** How many letters must change to turn one word into the other (Levenshtein distance, by the usual table). */
function distance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++)
      next[j] = Math.min(
        (row[j] as number) + 1,
        (next[j - 1] as number) + 1,
        (row[j - 1] as number) + (a[i - 1] === b[j - 1] ? 0 : 1),
      );
    row = next;
  }
  return row[b.length] as number;
}

/** The known word that was probably meant, or undefined. */
export function closest(word: string, known: readonly string[]): string | undefined {
  const wanted = word.toLowerCase().slice(0, 60);
  const scored = known
    .map((k) => ({
      k,
      d: k.toLowerCase().startsWith(wanted) && wanted.length >= 2 ? 0 : distance(wanted, k.toLowerCase()),
    }))
    .sort((a, b) => a.d - b.d);
  const best = scored[0];
  return best && best.d <= Math.max(2, Math.floor(wanted.length / 3)) ? best.k : undefined;
}

/** `what` is not known: names the closest known word, or the whole list when it is short. */
export function unknown(what: string, word: string, known: readonly string[], see: string) {
  const near = closest(word, known);
  const shown = word.length > 60 ? `${word.slice(0, 60)}…` : word;
  return optionTrouble.unknown(
    what,
    shown,
    near !== undefined
      ? `Did you mean ${near}? ${see}`.trim()
      : known.length <= 16
        ? `Choose ${known.join(', ')}.`
        : see,
  );
}

export const COMMON: readonly OptionSpec[] = [{ name: 'help', help: 'shows this' }];

/** Sorts the words of a command line by the command's table; unknown options are refused with the closest known one. */
export function readOptions(spec: CommandSpec, args: readonly string[]): Outcome<Given> {
  const known = new Map([...spec.options, ...COMMON].map((o) => [o.name, o]));
  const texts = new Map<string, string[]>();
  const words: string[] = [];
  const see = `See kickflat ${spec.name} --help.`;
  for (let i = 0; i < args.length; i++) {
    const arg = args[i] as string;
    if (!arg.startsWith('-') || arg === '-' || /^-[\d.]/.test(arg)) {
      words.push(arg);
      continue;
    }
    const [, name = '', joined] = /^--?([^=]*)(?:=([\s\S]*))?$/.exec(arg) ?? [];
    const option = arg.startsWith('--') ? known.get(name) : undefined;
    if (!option) {
      const near = closest(name, [...known.keys()]);
      return optionTrouble.noOption(
        spec.name,
        arg.split('=')[0] ?? arg,
        near ? `Did you mean --${near}?` : see,
      );
    }
    const before = texts.get(name) ?? [];
    if (before.length > 0 && !option.many) return optionTrouble.twice(name);
    if (option.value === undefined) {
      if (joined !== undefined) return optionTrouble.takesNoValue(name, see);
      texts.set(name, ['']);
      continue;
    }
    const values: string[] = [];
    if (joined !== undefined) values.push(joined);
    else
      while (
        i + 1 < args.length &&
        !(args[i + 1] as string).startsWith('--') &&
        (option.many || values.length === 0)
      )
        values.push(args[++i] as string);
    if (values.length === 0 || values.some((v) => v === ''))
      return optionTrouble.needsValue(name, option.value, see);
    texts.set(name, [...before, ...values]);
  }
  const most = spec.takes.length;
  const least = spec.takes.filter((word) => !word.startsWith('[')).length;
  if (!texts.has('help')) {
    if (words.length < least)
      return optionTrouble.missingWord(spec.name, spec.takes[words.length] ?? '', see);
    if (words.length > most) return optionTrouble.extraWord(spec.name, words[most] ?? '', see);
  }
  return done({
    words,
    text: (name) => texts.get(name)?.[0],
    texts: (name) => texts.get(name) ?? [],
    flag: (name) => texts.has(name),
  });
}

/** A length option in mm, or `otherwise` when it is not given. */
export function lengthOf(
  given: Given,
  name: string,
  bounds: { readonly least: number; readonly most: number },
): Outcome<Mm | undefined> {
  const text = given.text(name);
  if (text === undefined) return done(undefined);
  const read = parseLength(text);
  if (!read.ok) return failureAt(`--${name}`, read);
  if (read.value < bounds.least || read.value > bounds.most)
    return optionTrouble.lengthOutOfRange(name, bounds.least, bounds.most, text);
  return done(read.value);
}

/** A number option. `whole` asks for an integer. */
export function numberOf(
  given: Given,
  name: string,
  bounds: { readonly least: number; readonly most: number; readonly whole?: boolean },
): Outcome<number | undefined> {
  const text = given.text(name);
  if (text === undefined) return done(undefined);
  const number = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text) ? Number(text) : Number.NaN;
  const fits = number >= bounds.least && number <= bounds.most && (!bounds.whole || Number.isInteger(number));
  if (!fits)
    return optionTrouble.notNumberInRange(
      name,
      bounds.whole ? 'whole ' : '',
      bounds.least,
      bounds.most,
      text.slice(0, 40),
    );
  return done(number);
}

/** An option that must be one of a few words. */
export function choiceOf<T extends string>(
  given: Given,
  name: string,
  choices: readonly T[],
): Outcome<T | undefined> {
  const text = given.text(name);
  if (text === undefined) return done(undefined);
  const found = choices.find((choice) => choice === text.toLowerCase());
  return found !== undefined ? done(found) : unknown(`--${name}`, text, choices, '');
}
