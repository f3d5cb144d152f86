import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { makeFilms } from '../../core/makeFilms.ts';
import { deflate } from '../../core/raster/index.ts';
import { nodeFiles, Stopped, sharpCodec, workerPool } from '../../electron/host/index.ts';
import { chance } from './random.ts';
import { SMALL_DPI, smallRun } from './smallRun.ts';

/** What a process that made films many times and was stopped many times tells of itself. */
export interface Endurance {
  /** Bytes of the process's own after each export, once it collected and its threads, with nothing to do, had ended. */
  readonly memory: readonly number[];
  readonly cancels: number;
  /** Exports that were stopped before they ended, of those that were asked to. */
  readonly stopped: number;
  /** Timers, threads and other things that would keep a program from ending, after the last of it. */
  readonly left: readonly string[];
  /** Threads of the process before its workers came, and after they had gone, those of the library that draws aside; Linux only. */
  readonly threads: readonly [before: number, after: number];
  readonly files: readonly string[];
}

const collect = (globalThis as { gc?: () => void }).gc;
const settle = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
const THREADS = '/proc/self/task';

/** Those of the library that draws are its own: it starts them when it first draws several pictures at once, and keeps them. */
const threads = (): number =>
  existsSync(THREADS) ? readdirSync(THREADS).filter((id) => !isLibrarys(id)).length : 0;

function isLibrarys(id: string): boolean {
  try {
    return readFileSync(join(THREADS, id, 'comm'), 'utf8').startsWith('libvips');
  } catch {
    // It has ended meanwhile.
    return true;
  }
}

/** Memory that is this process's own, bytes: not the program's files, which come and go with the system's cache. */
function ownMemory(): number {
  try {
    const kb = /^RssAnon:\s+(\d+) kB/m.exec(readFileSync('/proc/self/status', 'utf8'))?.[1];
    if (kb !== undefined) return Number(kb) * 1024;
  } catch {
    // Elsewhere than on Linux.
  }
  return process.memoryUsage.rss();
}

/** ms that a thread without work stays here; the program waits longer, which would only make this slower. */
const IDLE_MS = 30;

async function endure(worker: string, exports: number, cancels: number, seed: number): Promise<Endurance> {
  const dir = mkdtempSync(join(tmpdir(), 'kickflat-endurance-'));
  const out = join(dir, 'films');
  const files = nodeFiles();
  const codec = sharpCodec();
  const run = await smallRun(codec, 'Again', 0);
  const random = chance(seed);
  const before = threads();
  const pool = workerPool(worker, 2, IDLE_MS);
  const films = (abort?: { aborted: boolean }) =>
    makeFilms({
      ...run,
      faces: ['bottom'],
      codec,
      workers: pool,
      deflate,
      masks: true,
      composite: false,
      dpi: SMALL_DPI,
      ...(abort ? { abort } : {}),
    });
  const memory: number[] = [];
  let slowest = 0;
  for (let n = 0; n < exports; n++) {
    const started = performance.now();
    const made = await films();
    if (!made.ok) throw new Error(made.reason);
    slowest = performance.now() - started;
    const written = await files.writeAll(out, made.value.files);
    if (!written.ok) throw new Error(written.reason);
    for (let wait = 0; threads() > before && wait < 100; wait++) await settle(20);
    collect?.();
    await settle(5);
    collect?.();
    memory.push(ownMemory());
  }
  let stopped = 0;
  for (let n = 0; n < cancels; n++) {
    const abort = { aborted: false };
    const timer = setTimeout(() => {
      abort.aborted = true;
    }, random.share() * slowest);
    try {
      const made = await films(abort);
      if (made.ok) {
        const written = await files.writeAll(out, made.value.files);
        if (!written.ok) throw new Error(written.reason);
      } else if (made.kind === 'cancelled') stopped++;
      else throw new Error(made.reason);
    } catch (error) {
      if (!(error instanceof Stopped)) throw error;
      stopped++;
    }
    clearTimeout(timer);
  }
  await pool.close();
  await settle(300);
  // The channel to whoever started this process stays, and what it writes on.
  const left = process.getActiveResourcesInfo().filter((name) => !/Pipe|TTY|^FSReqPromise$/.test(name));
  const found = readdirSync(dir, { recursive: true })
    .map(String)
    .filter((name) => /(^|\/)\./.test(name));
  rmSync(dir, { recursive: true, force: true });
  return { memory, cancels, stopped, left, threads: [before, threads()], files: found };
}

const [worker, exports, cancels, seed] = process.argv.slice(2) as [string, string, string, string];
process.send?.(await endure(worker, Number(exports), Number(cancels), Number(seed)));
process.disconnect?.();
