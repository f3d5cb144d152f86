import type { Job } from '../../core/job/index.ts';
import { makePress } from '../../core/makePress.ts';
import { deflate } from '../../core/raster/index.ts';
import { optionTrouble } from '../../core/sentences/index.ts';
import { fillFromShop } from '../../core/shop/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { canWriteAll, shopFile, stateDir } from '../host/index.ts';
import type { Command } from './context.ts';
import { openJobFile } from './openJob.ts';
import { type CommandSpec, numberOf } from './options.ts';
import { PRINTER_OPTIONS, withPrinter } from './printerOptions.ts';
import { progressBar, sayJson, sayWritten } from './say.ts';

export const spec: CommandSpec = {
  name: 'press',
  takes: ['JOB'],
  does: 'writes the run sheet, jig, squeegee template, calibration sheet, step-test film and tone patches',
  options: [
    {
      name: 'out',
      value: 'DIR',
      help: 'the folder to make; it must be new, empty, or hold earlier press files',
    },
    {
      name: 'dpi',
      value: 'N',
      help: 'points to the inch at which the finest lines are measured (the job’s printer)',
    },
    ...PRINTER_OPTIONS,
    {
      name: 'shop',
      help: 'with your shop’s own figures where the job states none: meshes, inks and prices, times (kickflat shop)',
    },
    { name: 'json', help: 'prints what was written as JSON' },
  ],
  examples: ['kickflat press out/night-heron.kickflat --out press'],
};

async function withShop(job: Job, wanted: boolean): Promise<Outcome<Job>> {
  if (!wanted) return done(job);
  const shop = await shopFile(stateDir()).read();
  return shop.ok ? done(fillFromShop(job, shop.value)) : shop;
}

export const run: Command = async (given, context): Promise<Outcome<0>> => {
  const out = given.text('out');
  if (out === undefined) return optionTrouble.noPressFolder();
  const dpi = numberOf(given, 'dpi', { least: 72, most: 2540, whole: true });
  if (!dpi.ok) return dpi;
  const file = await openJobFile(context, given.words[0] as string);
  if (!file.ok) return file;
  const filled = await withShop(file.value.job, given.flag('shop'));
  if (!filled.ok) return filled;
  const job = await withPrinter(filled.value, given);
  if (!job.ok) return job;
  // Said before the work rather than after it.
  const may = await canWriteAll(out);
  if (!may.ok) return may;
  const bar = progressBar(context.voice);
  const made = await makePress({
    job: job.value,
    art: file.value.art,
    codec: context.codec,
    workers: context.workers(),
    deflate,
    ...(dpi.value === undefined ? {} : { dpi: dpi.value }),
    progress: bar.progress,
    abort: context.abort,
  }).finally(bar.clear);
  if (!made.ok) return made;
  const written = await context.files.writeAll(out, made.value.files);
  if (!written.ok) return written;
  const { files, notes } = made.value;
  const listed = [...files].map(([name, bytes]) => ({ name, bytes: bytes.length }));
  if (given.flag('json')) {
    sayJson(context.voice, { folder: out, files: listed, notes });
    return done(0);
  }
  for (const note of notes) context.voice.out(`note: ${note}\n`);
  sayWritten(context.voice, out, files);
  return done(0);
};
