import { loadavg } from 'node:os';
import { join } from 'node:path';
import type { Job } from '../../core/job/index.ts';
import { makeFilms } from '../../core/makeFilms.ts';
import type { ImageCodec, Workers } from '../../core/ports/index.ts';
import type { Abort } from '../../core/units/index.ts';
import { demoJob } from '../../electron/demoJob.ts';
import { deflate, nodeFiles, sharpCodec, workerPool } from '../../electron/host/index.ts';

/** What one film set of the demonstration's bottom cost, in a process of its own. */
export interface FilmSetCost {
  readonly wallMs: number;
  /** Processor time of all threads, ms. */
  readonly cpuMs: number;
  readonly peakMb: number;
  readonly load: number;
  /** Waited for, by kind of work, ms: calls run side by side, so that these add up to more than the whole. */
  readonly stages: Readonly<Record<string, number>>;
  readonly bytes: number;
}

const [root, dpi, inks] = process.argv.slice(2) as [string, string, string];
const stages: Record<string, number> = {};

async function timed<T>(name: string, work: Promise<T>): Promise<T> {
  const from = performance.now();
  const result = await work;
  stages[name] = (stages[name] ?? 0) + performance.now() - from;
  return result;
}

const cpu = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

/** The demonstration with only the last `count` inks of its bottom, or with one of its inks once more as a sixth. */
function withInks(job: Job, count: number): Job {
  const { bottom } = job.faces;
  const key = bottom.inks.at(-1) as (typeof bottom.inks)[number];
  const sixth = { ...key, id: 'sixth', name: 'Sixth', hex: '#7a2048' };
  const chosen = [...bottom.inks, sixth].slice(Math.max(0, 5 - count), Math.max(5, count));
  return { ...job, faces: { ...job.faces, bottom: { ...bottom, inks: chosen } } };
}

const drawn = sharpCodec();
const made = await demoJob(join(root, 'build', 'demo'), nodeFiles(), drawn);
if (!made.ok) throw new Error(made.reason);
const pool = workerPool(join(root, 'dist', 'host', 'worker.mjs'), 2);
const workers: Workers = {
  ...pool,
  run: <In, Out>(task: string, input: In, abort?: Abort) =>
    timed(task, pool.run<In, Out>(task, input, abort)),
};
const codec: ImageCodec = {
  ...drawn,
  rasterise: (bytes, name, window) => timed('drawing windows', drawn.rasterise(bytes, name, window)),
};
const [wall, spent] = [performance.now(), cpu()];
let pdf = 0;
const films = await makeFilms({
  job: withInks(made.value.job, Number(inks)),
  art: made.value.art,
  faces: ['bottom'],
  codec,
  workers,
  deflate,
  masks: false,
  composite: false,
  dpi: Number(dpi),
  progress: (share) => {
    if (share >= 0.85 && pdf === 0) pdf = performance.now();
  },
});
if (!films.ok) throw new Error(films.reason);
const end = performance.now();
stages['writing the PDFs'] = end - pdf;
const cost: FilmSetCost = {
  wallMs: end - wall,
  cpuMs: cpu() - spent,
  peakMb: process.resourceUsage().maxRSS / 1024,
  load: loadavg()[0] as number,
  stages,
  bytes: films.value.files.get('films.pdf')?.length ?? 0,
};
await pool.close();
process.send?.(cost, () => process.exit(0));
