import { parseArgs } from 'node:util';
import { edits } from './edits.ts';
import { endurance, growth } from './endurance.ts';
import { fuzz } from './fuzz.ts';
import { kills } from './kills.ts';

/** `npm run fuzz`: everything at length, and its table of figures. */
const { values } = parseArgs({
  options: {
    each: { type: 'string', default: '3000' },
    kills: { type: 'string', default: '300' },
    exports: { type: 'string', default: '100' },
    cancels: { type: 'string', default: '200' },
    seed: { type: 'string', default: '1' },
  },
});
const amount = (name: keyof typeof values): number => {
  const n = Number(values[name]);
  if (!Number.isInteger(n) || n < 0) throw new Error(`--${name} needs a whole number.`);
  return n;
};

const rows: string[] = [];
const troubles: string[] = [];
const row = (...cells: readonly (string | number)[]) => rows.push(`| ${cells.join(' | ')} |`);
const say = (text: string) => process.stderr.write(`${text}\n`);
const mb = (bytes: number) => Math.round(bytes / 1048576);
const seed = amount('seed');

if (amount('each') > 0) {
  const result = await fuzz({ perKind: amount('each'), seed, say: (kind) => say(`inputs: ${kind}`) });
  row('input', 'tried', 'refused', 'imported', 'slowest, s', 'most memory, MB');
  row('---', '---:', '---:', '---:', '---:', '---:');
  for (const { kind, tried, refused, imported, slowestMs, memory } of result.tallies)
    row(kind, tried, refused, imported, (slowestMs / 1000).toFixed(1), mb(memory));
  rows.push(
    '',
    `Requests that reached the address laid out as bait: ${result.requests}; stray files: ${result.strayFiles.length}.`,
    '',
  );
  row('refusals, most frequent', 'times');
  row('---', '---:');
  const reasons = new Map<string, number>();
  for (const tally of result.tallies)
    for (const [reason, times] of tally.reasons) reasons.set(reason, (reasons.get(reason) ?? 0) + times);
  for (const [reason, times] of [...reasons].sort((a, b) => b[1] - a[1]).slice(0, 12))
    row(reason.replaceAll('|', '/'), times);
  rows.push('');
  troubles.push(...result.troubles.map(({ kind, input, what }) => `${kind}, ${input}: ${what}`));
  if (result.requests > 0) troubles.push(`${result.requests} requests went out`);
  troubles.push(...result.strayFiles.map((name) => `stray file ${name}`));
}

if (amount('kills') > 0) {
  say('kills');
  const third = Math.ceil(amount('kills') / 3);
  row('killed while it', 'kills', 'came through whole', 'in the midst of a writing');
  row('---', '---:', '---:', '---:');
  for (const tally of await kills({ counts: { save: third, autosave: third, films: third }, seed })) {
    row(tally.what, tally.kills, tally.kills - tally.troubles.length, tally.within);
    troubles.push(...tally.troubles.map((trouble) => `${tally.what}, ${trouble}`));
  }
  rows.push('');
}

if (amount('exports') >= 5) {
  say('exports');
  const told = await endurance({ exports: amount('exports'), cancels: amount('cancels'), seed });
  const grown = growth(told.memory);
  row('endurance', 'figure');
  row('---', '---:');
  row('film exports in one process', told.memory.length);
  row('its own memory at rest after the third, MB', mb(told.memory[2] as number));
  row('the same, middle of the last five, MB', mb((told.memory[2] as number) * grown));
  row('exports stopped at random moments', `${told.stopped} of ${told.cancels}`);
  row(
    'workers, timers and files left',
    told.left.length + told.files.length + Math.max(0, told.threads[1] - told.threads[0] - 1),
  );
  if (grown > 1.1)
    troubles.push(`memory grew to ${(grown * 100).toFixed(0)} % of what it was after the third export`);
  troubles.push(...[...told.left, ...told.files].map((what) => `left after the exports: ${what}`));
  const edited = edits(3000, seed);
  row('edits, undos and redos', `${edited.edits}, ${edited.undos}, ${edited.redos}`);
  row('documents that did not come back', edited.troubles.length);
  troubles.push(...edited.troubles);
  rows.push('');
}

process.stdout.write(`${rows.join('\n')}\n`);
for (const trouble of troubles) process.stdout.write(`TROUBLE ${trouble}\n`);
process.stdout.write(`${troubles.length === 0 ? 'Everything held.' : `${troubles.length} did not hold.`}\n`);
process.exitCode = troubles.length === 0 ? 0 : 1;
