#!/usr/bin/env node
import { fork } from 'node:child_process';
import { constants } from 'node:os';
import { join } from 'node:path';
import { ONE_ARENA, SMALL_NURSERY } from './leanMemory.mjs';
import { ROOT } from './root.mjs';
import { isEntry, Refusal } from './step.mjs';

/** Commands that fill much memory: each is started with one store of freed memory, see `ONE_ARENA`. */
const LARGE = ['studio', 'films', 'press', 'proof', 'check', 'traps', 'reprint'];

/** Such commands are run in a process with stores of that kind, unless this one has them already. */
const needsOwn = (args) =>
  LARGE.includes(args[0]) &&
  !args.includes('--help') &&
  Object.keys(ONE_ARENA).some((name) => !process.env[name]);

/**
 * Starts a process for the program, which waits until it is told to run it. The studio takes the end of the channel between the two for
 * its own stop, also when this one is killed; a command is told as it would be told itself.
 */
function aside(args) {
  const child = fork(join(ROOT, 'build', 'whenTold.mjs'), args, {
    env: { ...process.env, ...ONE_ARENA },
    execArgv: [...process.execArgv, ...SMALL_NURSERY],
  });
  const ended = new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('message', (said) => {
      child.kill('SIGKILL');
      resolve(said.status);
    });
    child.on('exit', (code, signal) => resolve(code ?? 128 + (constants.signals[signal] ?? 0)));
  });
  // That it could not start is seen by who runs it.
  ended.catch(() => {});
  const stop = (signal) => {
    if (args[0] !== 'studio') child.kill(signal);
    else if (child.connected) child.disconnect();
  };
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'];
  return {
    /** Runs the program; resolves with its exit status. */
    async run() {
      for (const signal of signals) process.on(signal, stop);
      // Where it has ended already, its status says why.
      child.send('run', () => {});
      try {
        return await ended;
      } finally {
        for (const signal of signals) process.off(signal, stop);
      }
    },
    end: () => child.kill('SIGKILL'),
  };
}

/** The command line from a checkout: sets up what is missing, builds what is out of date, then runs. */
export async function kickflat(args) {
  const own = needsOwn(args) ? aside(args) : null;
  try {
    // Read while that process starts.
    const { install } = await import('./install.mjs');
    await install();
    const { build } = await import('./build.mjs');
    // The studio needs the page as well; everything else starts sooner without it.
    await build({ only: args[0] === 'studio' && !args.includes('--help') ? 'all' : 'command' });
  } catch (error) {
    own?.end();
    if (!(error instanceof Refusal)) throw error;
    process.stderr.write(`kickflat: ${error.message}\n`);
    process.exitCode = 3;
    return;
  }
  const status = own ? await own.run() : await (await import('../dist/cli.mjs')).main(args);
  // A refused picture may still be busy in a thread of its own; nothing it does matters any more.
  process.stdout.write('', () => process.exit(status));
}

if (isEntry(import.meta)) await kickflat(process.argv.slice(2));
