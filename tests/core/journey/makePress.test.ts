import { fileURLToPath } from 'node:url';
import { PDFDocument } from 'pdf-lib';
import { beforeAll, expect, test } from 'vitest';
import { FACES } from '../../../core/deck/index.ts';
import type { JobFile } from '../../../core/job/index.ts';
import { layFaces } from '../../../core/layFaces.ts';
import { makeFilms } from '../../../core/makeFilms.ts';
import { makePress, type PressSet } from '../../../core/makePress.ts';
import { deflate } from '../../../core/raster/index.ts';
import { inlineWorkers } from '../../../core/tasks.ts';
import type { Outcome } from '../../../core/units/index.ts';
import { demoJob } from '../../../electron/demoJob.ts';
import { nodeFiles, sharpCodec } from '../../../electron/host/index.ts';

const codec = sharpCodec();
const dpi = 120;
let demo: JobFile;

beforeAll(async () => {
  const dir = fileURLToPath(new URL('../../../build/demo', import.meta.url));
  demo = must(await demoJob(dir, nodeFiles(), codec));
}, 60_000);

function must<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.reason);
  return outcome.value;
}

const request = () => ({ ...demo, codec, workers: inlineWorkers, deflate, dpi });
const sizes = ({ files }: PressSet) =>
  Object.fromEntries([...files].map(([name, { length }]) => [name, length]));

/** Workers that remember what they were asked to do. */
function listening() {
  const tasks: string[] = [];
  const run = <In, Out>(task: string, input: In): Promise<Out> => {
    tasks.push(task);
    return inlineWorkers.run<In, Out>(task, input);
  };
  return { tasks, workers: { ...inlineWorkers, run } };
}

test('press sheets from films that were laid out before are the same bytes, and nothing is separated again', async () => {
  const alone = must(await makePress(request()));
  const laid = must(await layFaces({ ...request(), faces: FACES }));
  const { tasks, workers } = listening();
  const films = must(
    await makeFilms({ ...request(), workers, laid, faces: FACES, masks: false, composite: false }),
  );
  const together = must(await makePress({ ...request(), workers, laid }));
  expect([...new Set(tasks)].sort()).toEqual(['assemblyPages', 'meshLoss', 'sheetStencil']);
  expect(sizes(together)).toEqual(sizes(alone));
  for (const [name, bytes] of alone.files)
    expect(Buffer.from(bytes).equals(Buffer.from(together.files.get(name) as Uint8Array)), name).toBe(true);
  // Seven pulls: five on the bottom and two on the top, each with its page.
  expect(films.manifest.films).toHaveLength(7);
  const pages = (await PDFDocument.load(alone.files.get('run-sheet.pdf') as Uint8Array)).getPageCount();
  expect(pages).toBeGreaterThanOrEqual(2 + 7);
}, 120_000);

test('an ink that is drawn in for its gain is shown as it prints: its face is separated again for the pictures', async () => {
  const { job } = demo;
  const [first, ...others] = job.faces.top.inks;
  if (!first) throw new Error('The top has no inks.');
  const top = { ...job.faces.top, inks: [{ ...first, gain: 0.1 }, ...others] };
  const bottom = { ...job.faces.bottom, art: [], inks: [] };
  const gained = { ...request(), job: { ...job, faces: { bottom, top } } };
  const laid = must(await layFaces({ ...gained, faces: ['top'] }));
  const { tasks, workers } = listening();
  must(await makePress({ ...gained, workers, laid }));
  expect(tasks).toContain('separateTile');
}, 120_000);
