#!/usr/bin/env node
import { fork } from 'node:child_process';
import { constants } from 'node:os';
import { join } from 'node:path';
import { install } from './install.mjs';
import { ONE_ARENA, SMALL_NURSERY } from './leanMemory.mjs';
import { ROOT } from './root.mjs';
import { isEntry, Refusal } from './step.mjs';

/** Commands that fill much memory: each is started with one store of freed memory, see `ONE_ARENA`. */
const LARGE = ['studio', 'films', 'press', 'proof', 'check', 'traps', 'reprint'];

/**
 * Runs the program in a process of its own. The studio takes the end of the channel between the two for its own stop, also when
 * this one is killed; a command is told as it would be told itself.
 */
function aside(args) {
  return new Promise((resolve, reject) => {
    const child = fork(join(ROOT, 'dist', 'cli.mjs'), args, {
      env: { ...process.env, ...ONE_ARENA },
      execArgv: [...process.execArgv, ...SMALL_NURSERY],
    });
    const stop = (signal) => {
      if (args[0] !== 'studio') child.kill(signal);
      else if (child.connected) child.disconnect();
    };
    const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'];
    for (const signal of signals) process.on(signal, stop);
    child.on('error', reject);
    child.on('message', (said) => {
      child.kill('SIGKILL');
      resolve(said.status);
    });
    child.on('exit', (code, signal) => {
      for (const each of signals) process.off(each, stop);
      resolve(code ?? 128 + (constants.signals[signal] ?? 0));
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
  const own =
    LARGE.includes(args[0]) &&
    !args.includes('--help') &&
    Object.entries(ONE_ARENA).some(([name]) => !process.env[name]);
  const status = own ? await aside(args) : await (await import('../dist/cli.mjs')).main(args);
  // A refused picture may still be busy in a thread of its own; nothing it does matters any more.
  process.stdout.write('', () => process.exit(status));
}

if (isEntry(import.meta)) await kickflat(process.argv.slice(2));
