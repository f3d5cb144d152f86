import { spawn } from 'node:child_process';
import { fstatSync } from 'node:fs';
import { join } from 'node:path';
import { done, type Outcome } from '../../core/units/index.ts';
import { stateDir } from '../host/index.ts';
import { electronProgram, hasDisplay, openBrowser } from '../launch.ts';
import { demoDir, distDir, pageDir } from '../places.ts';
import { shellHost } from '../shellHost.ts';
import { VERSION } from '../version.ts';
import { serveStudio } from '../web.ts';
import type { Command, Context } from './context.ts';
import { openJobFile } from './openJob.ts';
import type { CommandSpec } from './options.ts';
import { sayJson } from './say.ts';

export const spec: CommandSpec = {
  name: 'studio',
  takes: ['[JOB]'],
  does: 'opens the studio: in a window of its own where it can, else in the browser on an address of this machine',
  options: [
    { name: 'browser', help: 'in the browser even where a window could be opened' },
    { name: 'json', help: 'prints the address as JSON' },
  ],
  examples: ['kickflat studio out/night-heron.kickflat'],
};

/** Looks every half second whether the work is over. */
const POLL_MS = 500;

/** Whether standard input comes from another program and has ended. */
function watchInput(): { ended: boolean } {
  const state = { ended: false };
  try {
    const facts = fstatSync(0);
    if (!facts.isFIFO() && !facts.isSocket()) return state;
  } catch {
    return state;
  }
  const end = () => {
    state.ended = true;
  };
  process.stdin.on('end', end).on('close', end).on('error', end).resume();
  process.stdin.unref?.();
  return state;
}

/** Until the user stops it, or the program that started it is gone. */
async function untilStopped(context: Context): Promise<void> {
  const parent = process.ppid;
  const input = watchInput();
  // Started by `build/kickflat.mjs`, which holds the other end of a channel for as long as it lives.
  const launched = process.connected;
  const over = () => (input.ended && process.ppid !== parent) || (launched && !process.connected);
  while (!context.abort.aborted && !over()) await new Promise((resolve) => setTimeout(resolve, POLL_MS));
}

function inElectron(program: string, job: string | null): Promise<Outcome<0>> {
  const args = [join(distDir(), '..'), ...(job === null ? [] : [job])];
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, { stdio: 'inherit' });
    child.on('error', reject);
    child.on('close', () => resolve(done(0)));
  });
}

export const run: Command = async (given, context): Promise<Outcome<0>> => {
  const job = given.words[0] ?? null;
  if (job !== null) {
    const read = await openJobFile(context, job);
    if (!read.ok) return read;
  }
  const electron =
    given.flag('browser') || !hasDisplay() ? null : electronProgram(join(distDir(), 'cli.mjs'));
  if (electron !== null) return inElectron(electron, job);
  const host = shellHost({
    files: context.files,
    codec: context.codec,
    workers: context.workers,
    state: stateDir(),
    demo: demoDir(),
    version: VERSION,
    now: Date.now,
    given: job,
  });
  const server = await serveStudio({ host, pageDir: pageDir(), client: join(distDir(), 'webShell.js') });
  const opened = await openBrowser(server.address);
  if (given.flag('json')) sayJson(context.voice, { address: server.address });
  else context.voice.out(`The studio is at ${server.address}\n`);
  context.voice.err(
    `${opened ? 'It opens in your browser.' : 'Open that address in a browser.'} Ctrl+C stops it.\n`,
  );
  await untilStopped(context);
  await server.close();
  return done(0);
};
