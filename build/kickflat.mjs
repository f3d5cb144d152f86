#!/usr/bin/env node
import { fork } from 'node:child_process';
import { join } from 'node:path';
import { install } from './install.mjs';
import { ONE_ARENA } from './oneArena.mjs';
import { ROOT } from './root.mjs';
import { isEntry, Refusal } from './step.mjs';

/**
 * Runs the studio's program in a process of its own, see `ONE_ARENA`. The channel between the two closes when this one is stopped
 * or killed, which the studio takes for its own stop.
 */
function aside(args) {
  return new Promise((resolve, reject) => {
    const child = fork(join(ROOT, 'dist', 'cli.mjs'), args, { env: { ...process.env, ...ONE_ARENA } });
    const stop = () => child.connected && child.disconnect();
    const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'];
    for (const signal of signals) process.on(signal, stop);
    child.on('error', reject);
    child.on('exit', (code) => {
      for (const signal of signals) process.off(signal, stop);
      resolve(code ?? 1);
    });
  });
}

/** The command line from a checkout: sets up what is missing, builds what is out of date, then runs. */
export async function kickflat(args) {
  try {
    await install();
    const { build } = await import('./build.mjs');
    // The studio needs the page as well; everything else starts sooner without it.
    await build({ only: args[0] === 'studio' && !args.includes('--help') ? 'all' : 'command' });
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    process.stderr.write(`kickflat: ${error.message}\n`);
    process.exitCode = 3;
    return;
  }
  const own = args[0] === 'studio' && Object.entries(ONE_ARENA).some(([name]) => !process.env[name]);
  const status = own ? await aside(args) : await (await import('../dist/cli.mjs')).main(args);
  // A refused picture may still be busy in a thread of its own; nothing it does matters any more.
  process.stdout.write('', () => process.exit(status));
}

if (isEntry(import.meta)) await kickflat(process.argv.slice(2));
