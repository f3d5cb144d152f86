import { fileURLToPath } from 'node:url';
import { beforeAll, expect, test } from 'vitest';
import type { Job } from '../../../core/job/index.ts';
import { type FilmSet, makeFilms } from '../../../core/makeFilms.ts';
import { deflate } from '../../../core/raster/index.ts';
import { inlineWorkers } from '../../../core/tasks.ts';
import { demoJob } from '../../../electron/demoJob.ts';
import { nodeFiles, sharpCodec } from '../../../electron/host/index.ts';

const codec = sharpCodec();
let job: Job;
let art: ReadonlyMap<string, Uint8Array>;

beforeAll(async () => {
  const demo = await demoJob(
    fileURLToPath(new URL('../../../build/demo', import.meta.url)),
    nodeFiles(),
    codec,
  );
  if (!demo.ok) throw new Error(demo.reason);
  job = demo.value.job;
  art = demo.value.art;
}, 60_000);

/** Films of the demonstration job at a coarse resolution; `lanes` parts of the art are in the works at once. */
async function films(lanes: number, over: Partial<Job> = {}): Promise<FilmSet> {
  const made = await makeFilms({
    job: { ...job, ...over },
    art,
    faces: ['bottom', 'top'],
    codec,
    workers: { ...inlineWorkers, count: lanes },
    deflate,
    masks: false,
    composite: true,
    dpi: 100,
  });
  if (!made.ok) throw new Error(made.reason);
  return made.value;
}

test('the same job gives the same bytes, however many parts are in the works at once', async () => {
  const one = await films(1);
  const four = await films(4);
  expect([...four.files.keys()]).toEqual([...one.files.keys()]);
  for (const [name, bytes] of one.files)
    expect(Buffer.from(bytes).equals(Buffer.from(four.files.get(name) as Uint8Array)), name).toBe(true);
}, 120_000);

test('films are made smaller by the mesh growth that the manifest states, and not when that is off', async () => {
  const on = (await films(2)).manifest.films[0];
  const off = (await films(2, { press: { ...job.press, compensateGrowth: false } })).manifest.films[0];
  if (!on || !off) throw new Error('There are no films.');
  expect(off.growth).toEqual({ x: 0, y: 0 });
  // Across the deck the bottom's estimate is some tenths of a percent.
  expect(on.growth.y).toBeGreaterThan(0.001);
  expect(on.growth.y).toBeLessThan(0.02);
  // The same graphic on less film: its inked area shrinks by both growths, less what whole points blur at 100 dpi.
  const ratio = off.inkedCm2 / on.inkedCm2;
  expect(Math.abs(ratio - (1 + on.growth.x) * (1 + on.growth.y))).toBeLessThan(0.001);
}, 120_000);

test('a stopped export ends without films', async () => {
  const abort = { aborted: false };
  const made = await makeFilms({
    job,
    art,
    faces: ['bottom'],
    codec,
    workers: inlineWorkers,
    deflate,
    masks: false,
    composite: false,
    dpi: 100,
    abort,
    progress: (share) => {
      if (share > 0.3) abort.aborted = true;
    },
  });
  expect(made).toMatchObject({ ok: false, kind: 'cancelled' });
}, 60_000);

test('a face without art or inks is refused in words', async () => {
  const bare = { ...job, faces: { ...job.faces, top: { ...job.faces.top, art: [] } } };
  const made = await makeFilms({
    job: bare,
    art,
    faces: ['top'],
    codec,
    workers: inlineWorkers,
    deflate,
    masks: false,
    composite: false,
  });
  expect(made).toMatchObject({ ok: false, kind: 'input', reason: 'The top has no art.' });
});
