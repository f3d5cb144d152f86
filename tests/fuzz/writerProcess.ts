import { join } from 'node:path';
import { packJob } from '../../core/job/index.ts';
import { makeFilms } from '../../core/makeFilms.ts';
import { deflate } from '../../core/raster/index.ts';
import {
  lockJob,
  nodeFiles,
  sharpCodec,
  sweepLeftovers,
  unsavedWork,
  workerPool,
  writeJobFile,
} from '../../electron/host/index.ts';
import { SMALL_DPI, smallRun } from './smallRun.ts';

/** What is written while the process may be killed. */
export type Writing = 'save' | 'autosave' | 'films';
/** Said before and after each writing: which version, and for films the sum of every file. */
export interface Said {
  readonly version: number;
  readonly done: boolean;
}

/** Writes versions `first`, `first + 1`, … of a job or of its films until it is killed. */
async function write(dir: string, what: Writing, worker: string, first: number): Promise<void> {
  const files = nodeFiles();
  const codec = sharpCodec();
  const say = (version: number, done: boolean) => process.send?.({ version, done } satisfies Said);
  const runs = await Promise.all([0, 1].map((turn) => smallRun(codec, 'Kept', turn)));
  const path = join(dir, 'job.kickflat');
  if (what === 'save') {
    const lock = await lockJob(path);
    if (!lock.ok) throw new Error(lock.reason);
  }
  const unsaved = unsavedWork(join(dir, 'state'));
  const pool = what === 'films' ? workerPool(worker, 1) : null;
  await sweepLeftovers(dir);
  for (let version = first; ; version++) {
    const run = runs[version % 2] as (typeof runs)[number];
    const bytes = packJob({ ...run, job: { ...run.job, name: `Version ${version}` } });
    if (what === 'autosave') {
      say(version, false);
      await unsaved.keep(bytes, 'Kept');
    } else if (what === 'save') {
      say(version, false);
      const saved = await writeJobFile(files, path, bytes);
      if (!saved.ok) throw new Error(saved.reason);
    } else {
      const made = await makeFilms({
        ...run,
        faces: ['bottom'],
        codec,
        workers: pool as never,
        deflate,
        masks: true,
        composite: false,
        dpi: SMALL_DPI,
      });
      if (!made.ok) throw new Error(made.reason);
      say(version, false);
      const written = await files.writeAll(join(dir, 'films'), made.value.files);
      if (!written.ok) throw new Error(written.reason);
    }
    say(version, true);
  }
}

const [dir, what, worker, first] = process.argv.slice(2) as [string, Writing, string, string];
await write(dir, what, worker, Number(first));
