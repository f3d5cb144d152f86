import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { packJob } from '../core/job/index.ts';
import { main, makeContext } from './cli.ts';
import { processVoice } from './commands/index.ts';
import { demoJob } from './demoJob.ts';
import { demoDir } from './places.ts';

/** The folder everything goes to, as a person in the checkout names it. */
const OUT = 'out';

/** Makes the demonstration job, then does with it what anyone would do by the command line. */
async function demonstrate(): Promise<number> {
  const { files, codec, close } = makeContext(processVoice, { aborted: false });
  const made = await demoJob(demoDir(), files, codec);
  await close();
  if (!made.ok) {
    processVoice.err(`kickflat: ${made.reason} ${made.mend}\n`);
    return 3;
  }
  const { job } = made.value;
  await mkdir(OUT, { recursive: true });
  const path = join(OUT, 'night-heron.kickflat');
  const written = await files.write(path, packJob(made.value));
  if (!written.ok) {
    processVoice.err(`kickflat: ${written.reason} ${written.mend}\n`);
    return 3;
  }
  const decks = job.veneers.reduce((sum, veneer) => sum + veneer.decks, 0);
  processVoice.out(
    `${path}: ${job.name} for ${decks} decks on ${job.veneers.map((v) => v.name).join(', ')}\n\n`,
  );
  const steps: string[][] = [
    ['films', path, '--out', join(OUT, 'films')],
    ...job.veneers.map((v) => ['proof', path, '--veneer', v.id, '--out', join(OUT, `proof-${v.id}.png`)]),
    ['proof', path, '--face', 'top', '--out', join(OUT, 'proof-top.png')],
    ...job.colourways
      .slice(1)
      .map((c) => ['proof', path, '--colourway', c.id, '--out', join(OUT, `proof-colourway-${c.id}.png`)]),
    ['check', path],
  ];
  for (const step of steps) {
    const status = await main(step);
    if (status > 1) return status;
  }
  processVoice.out(
    `\nLook at ${join(OUT, 'films', 'assembly.pdf')} first: it shows how the sheets go together.\n`,
  );
  return 0;
}

const status = await demonstrate();
process.stdout.write('', () => process.exit(status));
