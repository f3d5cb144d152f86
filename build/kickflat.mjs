#!/usr/bin/env node
import { install } from './install.mjs';
import { isEntry, Refusal } from './step.mjs';

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
  const { main } = await import('../dist/cli.mjs');
  const status = await main(args);
  // A refused picture may still be busy in a thread of its own; nothing it does matters any more.
  process.stdout.write('', () => process.exit(status));
}

if (isEntry(import.meta)) await kickflat(process.argv.slice(2));
