import { COMMON, type CommandSpec } from './options.ts';

const WIDTH = 100;

/** Text in lines of at most `width`, every line but the first indented. */
function wrapped(text: string, indent: number): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && indent + line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line].join(`\n${' '.repeat(indent)}`);
}

/** How the program was called, and so how its examples work when they are pasted: `npx` finds it in the project's own folder. */
export const calledAs = (env: Readonly<Record<string, string | undefined>>): string =>
  env['npm_lifecycle_event'] === 'npx' ? 'npx kickflat' : 'kickflat';

/** The examples, each on a line of its own however long it is: a shell takes them as they stand. */
function examplesHelp(examples: readonly string[], called: string): string {
  const onDemo = examples.some((line) => line.includes('out/'));
  const head = examples.length > 1 ? 'Examples' : 'Example';
  const where = `in the project’s folder${onDemo ? ', with the job that npm run demo makes' : ''}`;
  return `${head}, ${where}:\n${examples.map((line) => `  ${line.replace(/^kickflat/, called)}`).join('\n')}`;
}

/** A command's help: what it does, its options, and examples that work as they stand. */
export function commandHelp(spec: CommandSpec, called: string): string {
  const options = [...spec.options, ...COMMON];
  const heads = options.map((o) => `--${o.name}${o.value === undefined ? '' : ` ${o.value}`}`);
  const column = Math.min(34, Math.max(...heads.map((h) => h.length)) + 4);
  const rows = options.map((o, i) => {
    const head = `  ${heads[i]}`;
    const gap = head.length + 2 > column ? `\n${' '.repeat(column)}` : ' '.repeat(column - head.length);
    return head + gap + wrapped(o.help, column);
  });
  const usage = [called, spec.name, ...spec.takes, '[options]'].join(' ');
  const does = wrapped(`${spec.does.charAt(0).toUpperCase()}${spec.does.slice(1)}.`, 0);
  const more = (spec.more ?? []).map((line) => `\n${wrapped(line, 2)}`).join('');
  const units = 'Lengths take units: 210mm, 21cm, 8.25in, 8 1/4"; bare numbers are mm.';
  return `${usage}\n\n${does}\n${more === '' ? '' : `${more}\n`}\n${rows.join('\n')}\n\n${units}\n\n${examplesHelp(spec.examples, called)}\n`;
}

/** The list of commands. */
export function generalHelp(specs: readonly CommandSpec[], called: string): string {
  const rows = specs.map((s) => `  ${[s.name, ...s.takes].join(' ').padEnd(16)}${wrapped(s.does, 18)}`);
  return `Kickflat: from art to registered films for hand printed decks.

${called} COMMAND [options]

${rows.join('\n')}

${called} COMMAND --help shows a command’s options and an example.
Exit status: 0 done; 1 the check found errors; 2 bad input or usage; 3 a file could not be read or written.
`;
}
