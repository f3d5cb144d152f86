import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import type { Job } from '../../../core/job/index.ts';
import { makeFilms } from '../../../core/makeFilms.ts';
import { deflate } from '../../../core/raster/index.ts';
import { reprintOf } from '../../../core/reprint.ts';
import { lotsOf } from '../../../core/runOf.ts';
import { inlineWorkers } from '../../../core/tasks.ts';
import { demoJob } from '../../../electron/demoJob.ts';
import { nodeFiles, sharpCodec } from '../../../electron/host/index.ts';

const DEMO = fileURLToPath(new URL('../../../build/demo', import.meta.url));

test('the films of a reprint in other colours are the same bytes as the first run’s', async () => {
  const codec = sharpCodec();
  const demo = await demoJob(DEMO, nodeFiles(), codec);
  if (!demo.ok) throw new Error(demo.reason);
  const { job, art } = demo.value;
  const films = async (of: Job) => {
    const made = await makeFilms({
      job: of,
      art,
      faces: ['bottom', 'top'],
      codec,
      workers: inlineWorkers,
      deflate,
      masks: false,
      composite: false,
      dpi: 72,
    });
    if (!made.ok) throw new Error(made.reason);
    return made.value.files;
  };
  const key = job.faces.bottom.inks.at(-1)!;
  const made = reprintOf(job, {
    remember: 'First run',
    colourway: null,
    fresh: { name: 'Dusk', colours: { [key.id]: { name: 'Deep violet', hex: '#4b2a6f' } } },
  });
  if (!made.ok) throw new Error(made.reason);
  expect(lotsOf(made.value).every((lot) => lot.colourway === 'Dusk')).toBe(true);
  const [before, after] = [await films(job), await films(made.value)];
  expect([...after.keys()]).toEqual([...before.keys()]);
  for (const [name, bytes] of before)
    expect(Buffer.from(bytes).equals(Buffer.from(after.get(name)!)), name).toBe(true);
}, 300_000);
