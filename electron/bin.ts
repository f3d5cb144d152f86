import { realpathSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { main } from './cli.ts';

export { main };

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
