import { cpus, loadavg } from 'node:os';
import { fileURLToPath } from 'node:url';
// @ts-expect-error plain JavaScript without types
import { build } from '../../build/build.mjs';
import { faceMasks } from '../../core/faceMasks.ts';
import { inlineWorkers } from '../../core/tasks.ts';
import { TRIAL_DPI, trialCurve, USUAL_TRIALS, widthsFor } from '../../core/trapTrials.ts';
import { demoJob } from '../../electron/demoJob.ts';
import { nodeFiles, sharpCodec, workerPool } from '../../electron/host/index.ts';
import { median, ms, table } from './table.ts';

/** Register errors tried on the demonstration's bottom: one trap width, and the whole curve, on 1 and 2 threads. */
await (build as (o: object) => Promise<unknown>)({ only: 'command' });
const codec = sharpCodec();
const demo = await demoJob(fileURLToPath(new URL('../../build/demo', import.meta.url)), nodeFiles(), codec);
if (!demo.ok) throw new Error(demo.reason);
const { job, art } = demo.value;
const made = await faceMasks(job, 'bottom', TRIAL_DPI, 'surface', { art, codec, workers: inlineWorkers });
if (!made.ok) throw new Error(made.reason);
const face = { settings: job.faces.bottom, separations: made.value.separations, dpi: TRIAL_DPI };
const toleranceMm = job.press.registerTolerance;
const worker = fileURLToPath(new URL('../../dist/host/worker.cjs', import.meta.url));

const rows = [['trap widths', 'trials each', 'threads', 'median of 3, ms', 'first width, 95 of 100, mm²']];
for (const widthsMm of [[0], [0.5], widthsFor(toleranceMm)])
  for (const count of [1, 2]) {
    const times: number[] = [];
    let shown = 0;
    for (let round = 0; round < (widthsMm.length > 1 ? 1 : 3); round++) {
      const pool = workerPool(worker, count);
      const began = performance.now();
      const curve = await trialCurve(
        { toleranceMm, trials: USUAL_TRIALS, seed: 1, widthsMm, limitMm2: 300 },
        count,
        (part) => pool.run('trialPart', { face, part }),
      );
      times.push(performance.now() - began);
      await pool.close();
      if (!curve.ok) throw new Error(curve.reason);
      shown = curve.value.points[0]!.areaMm2.p95;
    }
    rows.push([
      widthsMm.length > 1 ? `${widthsMm.length}, once` : `${widthsMm[0]} mm`,
      String(USUAL_TRIALS),
      String(count),
      ms(median(times)),
      shown.toFixed(1),
    ]);
  }
process.stdout.write(`${table(rows)}\n${cpus().length} processors, load ${loadavg()[0]!.toFixed(1)}\n`);
