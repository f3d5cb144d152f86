import { install } from './install.mjs';
import { ONE_ARENA } from './leanMemory.mjs';
import { ROOT } from './root.mjs';
import { isEntry, main, Refusal, run } from './step.mjs';

/**
 * From a fresh checkout to films: sets up, builds, makes the demonstration job, its films, a proof on each veneer and the
 * list of problems, all in out/.
 */
export async function demo(args) {
  const started = Date.now();
  await install();
  const ready = Date.now();
  const { build } = await import('./build.mjs');
  await build({ only: 'command' });
  const { status } = await run(process.execPath, ['dist/demo.mjs', ...args], { cwd: ROOT, env: ONE_ARENA });
  if (status !== 0) throw new Refusal('The demonstration did not finish; the line above says why.');
  const seconds = (from, to) => `${((to - from) / 1000).toFixed(0)} s`;
  process.stdout.write(`Took ${seconds(ready, Date.now())}, set-up ${seconds(started, ready)}.\n`);
}

if (isEntry(import.meta)) await main(() => demo(process.argv.slice(2)));
