import { fork } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unpackJob } from '../../core/job/index.ts';
import { makeFilms } from '../../core/makeFilms.ts';
import { deflate } from '../../core/raster/index.ts';
import { inlineWorkers } from '../../core/tasks.ts';
import { backupOf, lockJob, sharpCodec, sweepLeftovers, unsavedWork } from '../../electron/host/index.ts';
import { bundled, WORKER } from './bundle.ts';
import { filmSum } from './filmSum.ts';
import { type Chance, chance } from './random.ts';
import { SMALL_DPI, smallRun } from './smallRun.ts';
import type { Said, Writing } from './writerProcess.ts';

export interface KillTally {
  readonly what: Writing;
  kills: number;
  /** Rounds in which something was written at all, and in which the kill came between the start and end of a writing. */
  written: number;
  within: number;
  readonly troubles: string[];
}

/** Longest waits before a kill, ms: at any time of the work, and after a writing begins. */
const ANY_TIME = 900;
const FROM_WRITING = 25;

interface Round {
  /** The last version whose writing had begun, and the last that is known to be done. */
  readonly begun: number;
  readonly done: number;
}
interface Kept {
  /** The version that lies on the disk, 0 for none. */
  there: number;
  /** The last number that was used: a writing that had begun may or may not have ended. */
  used: number;
}
/** What was found after a kill: a version, 0 for nothing, or what is wrong. */
type Found = number | string;

/** Starts the writer, kills it at a moment that chance picks, and resolves with what it had said till then. */
async function killed(entry: string, dir: string, what: Writing, kept: Kept, random: Chance): Promise<Round> {
  const child = fork(entry, [dir, what, WORKER, String(kept.used + 1)], {
    execArgv: [],
    stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
  });
  let begun = kept.used;
  let done = kept.there;
  let stderr = '';
  child.stderr?.on('data', (text) => {
    stderr += text;
  });
  const closed = new Promise<NodeJS.Signals | null>((resolve) =>
    child.once('close', (_, signal) => resolve(signal)),
  );
  // A few kills come while the program starts, some at any time, half soon after a writing begins, which is short.
  const when = random.pick(['start', 'any', 'soon', 'soon'] as const);
  const wait = random.share() * (when === 'soon' ? FROM_WRITING : ANY_TIME);
  const after = when === 'soon' ? 1 + random.int(3) : 1;
  await new Promise<void>((resolve) => {
    let started = false;
    const start = () => {
      if (!started) setTimeout(resolve, wait);
      started = true;
    };
    child.on('message', ({ version, done: ended }: Said) => {
      if (ended) done = version;
      else begun = version;
      if (begun >= kept.used + after) start();
    });
    if (when === 'start') child.once('spawn', start);
    child.once('close', () => resolve());
  });
  child.kill('SIGKILL');
  const signal = await closed;
  if (signal !== 'SIGKILL') throw new Error(`The writer ended by itself: ${stderr}`);
  return { begun, done };
}

/** The version of a job's bytes, or what is wrong with them. */
function versionOf(bytes: Uint8Array): Found {
  const file = unpackJob(bytes);
  if (!file.ok) return file.reason;
  return Number(/^Version (\d+)$/.exec(file.value.job.name)?.[1] ?? Number.NaN);
}

async function savedJob(dir: string): Promise<Found> {
  const path = join(dir, 'job.kickflat');
  // The next program may have it: its owner is dead.
  const lock = await lockJob(path);
  if (!lock.ok) return lock.reason;
  await lock.value.release();
  if (!existsSync(path)) return 0;
  if (existsSync(backupOf(path)) && typeof versionOf(readFileSync(backupOf(path))) === 'string')
    return 'its backup can not be opened';
  return versionOf(readFileSync(path));
}

/** What the next program finds; it is then taken as saved, so that nothing of it may stay. */
async function autosavedJob(dir: string): Promise<Found> {
  const state = join(dir, 'state');
  await sweepLeftovers(state);
  const next = unsavedWork(state);
  const found = await next.recover();
  await next.keep(null, 'Kept');
  const left = existsSync(state) ? readdirSync(state) : [];
  if (left.length > 0) return `left behind: ${left.join(', ')}`;
  return found === null ? 0 : versionOf(found.bytes);
}

function writtenFilms(dir: string, sums: readonly string[], { begun, done }: Round): Found {
  const films = join(dir, 'films');
  if (!existsSync(films)) return 0;
  const there = filmSum(new Map(readdirSync(films).map((name) => [name, readFileSync(join(films, name))])));
  const version = [begun, done].find((v) => v > 0 && sums[v % 2] === there);
  return version ?? 'the films are not whole';
}

/** Kills a program `count` times for each kind of writing, at moments from `seed`, and looks at what is left. */
export async function kills(options: {
  readonly counts: Readonly<Record<Writing, number>>;
  readonly seed: number;
}): Promise<readonly KillTally[]> {
  const random = chance(options.seed);
  const entry = await bundled('writerProcess');
  const root = mkdtempSync(join(tmpdir(), 'kickflat-kills-'));
  const codec = sharpCodec();
  const sums: string[] = [];
  for (const turn of [0, 1]) {
    const run = await smallRun(codec, 'Kept', turn);
    const made = await makeFilms({
      ...run,
      faces: ['bottom'],
      codec,
      workers: inlineWorkers,
      deflate,
      masks: true,
      composite: false,
      dpi: SMALL_DPI,
    });
    if (!made.ok) throw new Error(made.reason);
    sums.push(filmSum(made.value.files));
  }
  const tallies: KillTally[] = [];
  try {
    for (const what of ['save', 'autosave', 'films'] as const) {
      const tally: KillTally = { what, kills: 0, written: 0, within: 0, troubles: [] };
      const dir = join(root, what);
      mkdirSync(dir);
      const kept: Kept = { there: 0, used: 0 };
      for (let n = 0; n < options.counts[what]; n++) {
        const { there, used } = kept;
        const round = await killed(entry, dir, what, kept, random);
        tally.kills++;
        if (round.done > used) tally.written++;
        if (round.begun > Math.max(used, round.done)) tally.within++;
        await sweepLeftovers(dir);
        const found =
          what === 'save'
            ? await savedJob(dir)
            : what === 'autosave'
              ? await autosavedJob(dir)
              : writtenFilms(dir, sums, round);
        const left = readdirSync(dir).filter((name) => name.startsWith('.'));
        if (typeof found === 'string') tally.troubles.push(`kill ${n}: ${found}`);
        else if (found !== there && !(found >= round.done && found <= round.begun))
          tally.troubles.push(`kill ${n}: ${found} is there; ${round.done} was done, ${round.begun} begun`);
        else if (found < round.done)
          tally.troubles.push(`kill ${n}: ${found} is there, ${round.done} was done`);
        if (left.length > 0) tally.troubles.push(`kill ${n}: left behind: ${left.join(', ')}`);
        kept.used = round.begun;
        kept.there = typeof found === 'string' || what === 'autosave' ? 0 : found;
      }
      tallies.push(tally);
    }
  } finally {
    rmSync(root, { recursive: true, force: true });
    rmSync(entry, { force: true });
  }
  return tallies;
}
