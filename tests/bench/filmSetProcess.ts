import { loadavg } from 'node:os';
import { join } from 'node:path';
import type { Job } from '../../core/job/index.ts';
import { type LayFacesRequest, layFaces } from '../../core/layFaces.ts';
import { filmPages, makeFilms } from '../../core/makeFilms.ts';
import type { ImageCodec, Workers } from '../../core/ports/index.ts';
import { deflate } from '../../core/raster/index.ts';
import type { Abort } from '../../core/units/index.ts';
import { demoJob } from '../../electron/demoJob.ts';
import { nodeFiles, sharpCodec, workerPool } from '../../electron/host/index.ts';
import { decodedArt } from './decodedArt.ts';

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

/**
 * `art` begins with the art as a file and writes all files; `decoded` begins with its pixels and writes films.pdf, its threads awake: the
 * command line wakes them while it reads the art, and the studio's are. `asleep` starts them within what is measured.
 */
const [root, dpi, inks, from = 'art'] = process.argv.slice(2) as [string, string, string, string?];
const stages: Record<string, number> = {};

async function timed<T>(name: string, work: Promise<T>): Promise<T> {
  const begun = performance.now();
  const result = await work;
  stages[name] = (stages[name] ?? 0) + performance.now() - begun;
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

/** films.pdf alone. */
async function pages(request: LayFacesRequest): Promise<Uint8Array> {
  const laid = await layFaces({ ...request, pack: true });
  if (!laid.ok) throw new Error(laid.reason);
  pdf = performance.now();
  return filmPages(laid.value, request.job.name, { ...request, deflate }, () => {});
}

/** All files; resolves with films.pdf. */
async function whole(request: LayFacesRequest): Promise<Uint8Array> {
  const progress = (share: number) => {
    if (share >= 0.85 && pdf === 0) pdf = performance.now();
  };
  const films = await makeFilms({ ...request, deflate, masks: false, composite: false, progress });
  if (!films.ok) throw new Error(films.reason);
  return films.value.files.get('films.pdf') ?? new Uint8Array(0);
}

const drawn = sharpCodec();
const made = await demoJob(join(root, 'build', 'demo'), nodeFiles(), drawn);
if (!made.ok) throw new Error(made.reason);
const file = { ...made.value, job: withInks(made.value.job, Number(inks)) };
const pool = workerPool(join(root, 'dist', 'host', 'worker.cjs'), 2);
const workers: Workers = {
  ...pool,
  run: <In, Out>(task: string, input: In, abort?: Abort) =>
    timed(task, pool.run<In, Out>(task, input, abort)),
};
const given = from === 'art' ? drawn : await decodedArt(file, 'bottom', Number(dpi), drawn);
if (from === 'decoded') await Promise.all([1, 2].map(() => pool.run('wake', null)));
const codec: ImageCodec = {
  ...given,
  rasterise: (...of) => timed('drawing windows', given.rasterise(...of)),
};
let pdf = 0;
const [wall, spent] = [performance.now(), cpu()];
const request = { ...file, faces: ['bottom'] as const, codec, workers, dpi: Number(dpi) };
const bytes = await (from === 'art' ? whole(request) : pages(request));
const end = performance.now();
stages['writing the PDFs'] = end - pdf;
const cost: FilmSetCost = {
  wallMs: end - wall,
  cpuMs: cpu() - spent,
  peakMb: process.resourceUsage().maxRSS / 1024,
  load: loadavg()[0] as number,
  stages,
  bytes: bytes.length,
};
await pool.close();
process.send?.(cost, () => process.exit(0));
