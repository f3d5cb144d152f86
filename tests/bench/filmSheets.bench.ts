import { fileURLToPath } from 'node:url';
import { FACES } from '../../core/deck/index.ts';
import { type FaceMasks, faceMasks } from '../../core/faceMasks.ts';
import { ASLANT, type FaceLayout, layOutFace } from '../../core/film/index.ts';
import type { Job } from '../../core/job/index.ts';
import { layOutRequest } from '../../core/layOutRequest.ts';
import { inlineWorkers } from '../../core/tasks.ts';
import { demoJob } from '../../electron/demoJob.ts';
import { nodeFiles, sharpCodec } from '../../electron/host/index.ts';
import { median, ms, table } from './table.ts';

/**
 * The demonstration job on A4 and letter: sheets, and what straight cuts cross against shaped ones, film by film; and how
 * long laying out takes. `npm run bench filmSheets`; `--quick` at 300 dpi.
 */
const dpi = process.argv.includes('--quick') ? 300 : 600;

interface Cuts {
  crossings: number;
  mm: number;
  aslant: number;
}

function cutsOf(layout: FaceLayout, film: number): Cuts {
  const cuts = { crossings: 0, mm: 0, aslant: 0 };
  for (const sheet of layout.films[film]!.sheets) {
    for (const seam of sheet.seams) {
      if (seam.with < sheet.index) continue;
      cuts.crossings += seam.crossings.length;
      cuts.mm += seam.crossings.reduce((sum, one) => sum + one[2], 0);
      cuts.aslant += seam.slants.filter((slant) => slant > ASLANT).length;
    }
  }
  return cuts;
}

function laid(job: Job, made: FaceMasks, shapedCuts: boolean, shareSheets: boolean): FaceLayout {
  const request = layOutRequest(job, made);
  if (!request.ok) throw new Error(request.reason);
  const layout = layOutFace({
    ...request.value,
    options: { ...request.value.options, shapedCuts, shareSheets },
  });
  if (!layout.ok) throw new Error(layout.reason);
  return layout.value;
}

const rows: string[][] = [];
const row = (...cells: (string | number)[]) => rows.push(cells.map(String));
const say = ({ crossings, mm, aslant }: Cuts) => [crossings, mm.toFixed(1), aslant] as const;

async function run(): Promise<void> {
  const codec = sharpCodec();
  const demo = await demoJob(fileURLToPath(new URL('../../build/demo', import.meta.url)), nodeFiles(), codec);
  if (!demo.ok) throw new Error(demo.reason);
  const { job, art } = demo.value;
  const masks = new Map<string, FaceMasks>();
  for (const face of FACES) {
    const made = await faceMasks(job, face, dpi, 'film', { art, codec, workers: inlineWorkers });
    if (!made.ok) throw new Error(made.reason);
    masks.set(face, made.value);
  }
  row(
    'sheet',
    'face',
    'ink',
    'sheets',
    'straight cuts cross ink',
    'mm',
    'aslant',
    'shaped cuts',
    'mm',
    'aslant',
  );
  const speeds = [['sheet', 'face', 'dpi', 'layOutFace, median of 5, ms']];
  for (const sheet of ['a4', 'letter']) {
    const printed = { ...job, printer: { ...job.printer, sheet } };
    for (const face of FACES) {
      const made = masks.get(face)!;
      const straight = laid(printed, made, false, false);
      const shaped = laid(printed, made, true, false);
      const sum = [0, 0, 0, 0, 0, 0];
      for (const [i, film] of shaped.films.entries()) {
        const [a, b] = [cutsOf(straight, i), cutsOf(shaped, i)];
        row(sheet, face, film.art.inkName, film.sheets.length, ...say(a), ...say(b));
        for (const [k, n] of [a.crossings, a.mm, a.aslant, b.crossings, b.mm, b.aslant].entries())
          sum[k]! += n;
      }
      row(sheet, face, 'together', shaped.pages, ...sum.map((n) => (Number.isInteger(n) ? n : n.toFixed(1))));
      const shared = laid(printed, made, true, true).pages;
      if (shared < shaped.pages) row(sheet, face, 'sharing sheets', shared, '', '', '', '', '', '');
      const times: number[] = [];
      for (let i = 0; i < 5; i++) {
        const began = performance.now();
        laid(printed, made, true, false);
        times.push(performance.now() - began);
      }
      speeds.push([sheet, face, String(dpi), ms(median(times))]);
    }
  }
  process.stdout.write(`${table(rows)}\n\n${table(speeds)}\n`);
}

await run();
