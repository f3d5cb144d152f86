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

/** A command's help: what it does, its options, and an example that works on the demonstration job. */
export function commandHelp(spec: CommandSpec): string {
  const options = [...spec.options, ...COMMON];
  const heads = options.map((o) => `--${o.name}${o.value === undefined ? '' : ` ${o.value}`}`);
  const column = Math.min(34, Math.max(...heads.map((h) => h.length)) + 4);
  const rows = options.map((o, i) => {
    const head = `  ${heads[i]}`;
    const gap = head.length + 2 > column ? `\n${' '.repeat(column)}` : ' '.repeat(column - head.length);
    return head + gap + wrapped(o.help, column);
  });
  const usage = ['kickflat', spec.name, ...spec.takes, '[options]'].join(' ');
  const does = wrapped(`${spec.does.charAt(0).toUpperCase()}${spec.does.slice(1)}.`, 0);
  const more = (spec.more ?? []).map((line) => `\n${wrapped(line, 2)}`).join('');
  const units = 'Lengths take units: 210mm, 21cm, 8.25in, 8 1/4"; bare numbers are mm.';
  return `${usage}\n\n${does}\n${more === '' ? '' : `${more}\n`}\n${rows.join('\n')}\n\n${units}\n\nExample, with the job that npm run demo makes:\n  ${spec.example}\n`;
}

/** The list of commands. */
export function generalHelp(specs: readonly CommandSpec[]): string {
  const rows = specs.map((s) => `  ${[s.name, ...s.takes].join(' ').padEnd(16)}${wrapped(s.does, 18)}`);
  return `Kickflat: from art to registered films for hand printed decks.

kickflat COMMAND [options]

${rows.join('\n')}

kickflat COMMAND --help shows a command's options and an example.
Exit status: 0 done; 1 the check found errors; 2 bad input or usage; 3 a file could not be read or written.
`;
}
