import { loadavg } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
// @ts-expect-error plain JavaScript without types
import { build } from '../../build/build.mjs';
import { makeFilms } from '../../core/makeFilms.ts';
import { deflate } from '../../core/raster/index.ts';
import { demoJob } from '../../electron/demoJob.ts';
import { nodeFiles, Stopped, sharpCodec, workerPool } from '../../electron/host/index.ts';
import { median, table } from './table.ts';

/**
 * How soon a film set of the demonstration's bottom at 600 dpi stops, asked at evenly spread moments of it: from the moment a user
 * would ask, also where this thread is too busy to hear, until the work has ended; and processor time spent in the half second after
 * that. `npm run bench abort`; `--quick` at 300 dpi.
 */
const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const quick = process.argv.includes('--quick');
const DPI = quick ? 300 : 600;
const MOMENTS = quick ? 10 : 24;
/** ms after the end in which nothing should go on. */
const AFTER_MS = 500;

await (build as (options: object) => Promise<unknown>)({ only: 'command' });
const codec = sharpCodec();
const made = await demoJob(join(ROOT, 'build', 'demo'), nodeFiles(), codec);
if (!made.ok) throw new Error(made.reason);
const file = made.value;
const workers = workerPool(join(ROOT, 'dist', 'host', 'worker.cjs'), 2);
const sleep = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

interface Stop {
  readonly waitedMs: number;
  readonly afterMs: number;
  /** What it was doing, as the user reads it. */
  readonly during: string;
}

/** One film set, stopped after `moment` ms; null where it was done sooner. Without a moment: how long a whole one takes. */
async function stopped(moment: number | null): Promise<Stop | number | null> {
  const abort = { aborted: false };
  let during = 'nothing yet';
  const from = performance.now();
  if (moment !== null)
    setTimeout(() => {
      abort.aborted = true;
    }, moment);
  const progress = (_: number, text: string) => {
    if (!abort.aborted) during = text;
  };
  const request = { ...file, faces: ['bottom'] as const, dpi: DPI, masks: false, composite: false };
  const ended = await makeFilms({ ...request, codec, workers, deflate, abort, progress }).catch((error) => {
    if (!(error instanceof Stopped)) throw error;
    return null;
  });
  const till = performance.now();
  if (moment === null) return till - from;
  if (ended?.ok) return null;
  const before = process.cpuUsage();
  await sleep(AFTER_MS);
  const { user, system } = process.cpuUsage(before);
  return { waitedMs: till - from - moment, afterMs: (user + system) / 1000, during };
}

const whole = Number(await stopped(null));
const stops: Stop[] = [];
for (let i = 0; i < MOMENTS; i++) {
  const stop = await stopped((whole * (i + 0.5)) / MOMENTS);
  if (stop !== null && typeof stop !== 'number') stops.push(stop);
}
await workers.close();
const waits = stops.map((stop) => stop.waitedMs);
const slowest = [...stops].sort((a, b) => b.waitedMs - a.waitedMs).slice(0, 5);
process.stdout.write(
  `${table([
    [`stops at ${DPI} dpi`, 'median, ms', 'longest, ms', 'processors after it, most, ms', 'load'],
    [
      String(stops.length),
      median(waits).toFixed(0),
      Math.max(...waits).toFixed(0),
      Math.max(...stops.map((stop) => stop.afterMs)).toFixed(0),
      (loadavg()[0] as number).toFixed(1),
    ],
  ])}\n\n${table([
    ['the slowest, while it was at', 'ms', 'processors after it, ms'],
    ...slowest.map(({ during, waitedMs, afterMs }) => [during, waitedMs.toFixed(0), afterMs.toFixed(0)]),
  ])}\n`,
);
process.exit(0);
