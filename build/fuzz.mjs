import { install } from './install.mjs';
import { isEntry, main, Refusal, run } from './step.mjs';

/**
 * Tries the program with what could harm it: changed files by the thousand, kills in the middle of writing, a hundred
 * exports in a row. Prints the table of figures. Options go through: `--each N` inputs a kind, `--kills N`, `--exports N`,
 * `--cancels N`, `--seed N`.
 */
export async function fuzz(args) {
  await install();
  const { status } = await run(process.execPath, ['--import', 'tsx', 'tests/fuzz/main.ts', ...args]);
  if (status !== 0) throw new Refusal('Some of it went wrong; see above.');
}

if (isEntry(import.meta)) await main(() => fuzz(process.argv.slice(2)));
