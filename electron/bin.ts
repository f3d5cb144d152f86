import { realpathSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { setDist, trialEntry } from './places.ts';
import { type ReadyChild, readyChild } from './readyChild.ts';

// What is read when it is needed lies in a folder beside this file and would look for the other files there.
setDist(fileURLToPath(new URL('.', import.meta.url)));

/** Commands that draw: the process that tries drawings starts with them, and reads its program while this one reads its own. */
const DRAWING = ['new', 'add', 'films', 'proof', 'press', 'traps', 'reprint'];

/** The whole command line, see `cli.ts`. */
export async function main(args: readonly string[]): Promise<number> {
  const draws = DRAWING.includes(args[0] ?? '') && !args.includes('--help');
  const ready: ReadyChild | undefined = draws ? readyChild(trialEntry()) : undefined;
  try {
    const cli = await import('./cli.ts');
    return await cli.main(args, undefined, ready);
  } finally {
    ready?.end();
  }
}

/** Whether node was asked to run this very file; `build/kickflat.mjs` imports it instead. */
function isEntry(): boolean {
  try {
    return process.argv[1] !== undefined && realpathSync(process.argv[1]) === fileURLToPath(import.meta.url);
  } catch {
    return false;
  }
}

if (isEntry()) {
  const status = await main(process.argv.slice(2));
  // A refused picture may still be busy in a thread of its own; nothing it does matters any more. Leaving waits for it, all the
  // same: whoever started this program is told the end, and need not wait.
  process.stdout.write('', () => {
    if (process.send) process.send({ status }, () => process.exit(status));
    else process.exit(status);
  });
}
