import { packJob } from '../../core/job/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { lockJob, writeJobFile } from '../host/index.ts';
import { ART_OPTIONS, placeGiven } from './artOptions.ts';
import type { Command } from './context.ts';
import { sayMade } from './made.ts';
import { openJobFile } from './openJob.ts';
import type { CommandSpec } from './options.ts';

export const spec: CommandSpec = {
  name: 'add',
  takes: ['JOB'],
  does: 'adds art or words to a face of a job; the job as it was stays beside it as JOB.bak',
  options: [...ART_OPTIONS, { name: 'json', help: 'prints what was made as JSON' }],
  examples: [
    'kickflat new --art build/demo/night-heron.svg --inks 5 --deck popsicle-8.25 --out two-sided.kickflat',
    'kickflat add two-sided.kickflat --face top --art build/demo/little-wave.svg',
  ],
};

export const run: Command = async (given, context): Promise<Outcome<0>> => {
  const path = given.words[0] as string;
  const lock = await lockJob(path);
  if (!lock.ok) return lock;
  try {
    const file = await openJobFile(context, path);
    if (!file.ok) return file;
    const placed = await placeGiven(context, given, file.value.job, 'top');
    if (!placed.ok) return placed;
    const art = new Map([...file.value.art, ...placed.value.art]);
    const extra = new Map([...file.value.extra, ...placed.value.extra]);
    const bytes = packJob({ job: placed.value.job, art, extra });
    const written = await writeJobFile(context.files, path, bytes);
    if (!written.ok) return written;
    sayMade(context.voice, given.flag('json'), path, placed.value);
    return done(0);
  } finally {
    await lock.value.release();
  }
};
