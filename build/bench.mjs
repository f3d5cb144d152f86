import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from './root.mjs';
import { isEntry, main, Refusal, run } from './step.mjs';

const FOLDER = join(ROOT, 'tests', 'bench');
/** Benches besides the kernels' are those whose names end so; other files there serve them. */
const ENDING = '.bench.ts';

/** The benches there are, the kernels first: name → file. */
export function benches() {
  const others = existsSync(FOLDER) ? readdirSync(FOLDER).filter((name) => name.endsWith(ENDING)) : [];
  return new Map([
    ['kernels', join(FOLDER, 'kernels.ts')],
    ...others.sort().map((name) => [name.slice(0, -ENDING.length), join(FOLDER, name)]),
  ]);
}

/** Runs the named benches, or all; options go through to them (`--quick` takes a sixteenth of the points). */
export async function bench(args) {
  const names = args.filter((arg) => !arg.startsWith('--'));
  const options = args.filter((arg) => arg.startsWith('--'));
  const all = benches();
  const unknown = names.find((name) => !all.has(name));
  if (unknown)
    throw new Refusal(`There is no bench “${unknown}”. The benches are ${[...all.keys()].join(', ')}.`);
  for (const [name, file] of all) {
    if (names.length > 0 && !names.includes(name)) continue;
    const { status } = await run(process.execPath, ['--import', 'tsx', file, ...options]);
    if (status !== 0) throw new Refusal(`The bench “${name}” broke off with status ${status}.`);
  }
}

if (isEntry(import.meta)) await main(() => bench(process.argv.slice(2)));
