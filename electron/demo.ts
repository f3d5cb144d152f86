import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { FACES, type Face } from '../core/deck/index.ts';
import { faceProof } from '../core/facePreview.ts';
import { type Job, packJob } from '../core/job/index.ts';
import { proofPlates } from '../core/makeProof.ts';
import type { Failure } from '../core/units/index.ts';
import { main, makeContext } from './cli.ts';
import { processVoice } from './commands/index.ts';
import { demoJob } from './demoJob.ts';
import { demoDir } from './places.ts';

/** The folder everything goes to, as a person in the checkout names it. */
const OUT = 'out';
/** Points to the inch of its proofs. */
const PROOF_DPI = 150;

/** A proof of the bottom on each veneer and in each other colourway, and one of the top, from one separation a face. */
async function proofs(job: Job, art: ReadonlyMap<string, Uint8Array>): Promise<number> {
  const { files, codec, workers, close } = makeContext(processVoice, { aborted: false });
  const veneer = (job.veneers[0] as { id: string }).id;
  const wanted: { face: Face; name: string; veneerId: string; colourwayId: string | null }[] = [
    ...job.veneers.map((v) => ({ face: 'bottom' as const, name: v.id, veneerId: v.id, colourwayId: null })),
    ...job.colourways.slice(1).map((c) => ({
      face: 'bottom' as const,
      name: `colourway-${c.id}`,
      veneerId: veneer,
      colourwayId: c.id,
    })),
    { face: 'top', name: 'top', veneerId: veneer, colourwayId: null },
  ];
  try {
    for (const face of FACES) {
      const plates = await proofPlates({ job, art, face, dpi: PROOF_DPI, codec, workers: workers() });
      if (!plates.ok) return said(plates);
      for (const { name, veneerId, colourwayId } of wanted.filter((w) => w.face === face)) {
        const picture = faceProof({ job, face, veneerId, colourwayId, ...plates.value });
        const path = join(OUT, `proof-${name}.png`);
        const written = await files.write(path, await codec.encodePng(picture, PROOF_DPI));
        if (!written.ok) return said(written);
        processVoice.out(`${path}: ${face} face, ${picture.width} × ${picture.height} points\n`);
      }
    }
  } finally {
    await close();
  }
  return 0;
}

/** Says a failure as the command line does, and its exit status. */
function said(failure: Failure): number {
  processVoice.err(`kickflat: ${failure.reason} ${failure.mend}\n`);
  return failure.kind === 'input' ? 2 : 3;
}

/** Makes the demonstration job, then does with it what anyone would do by the command line. */
async function demonstrate(): Promise<number> {
  const { files, codec, close } = makeContext(processVoice, { aborted: false });
  const made = await demoJob(demoDir(), files, codec);
  await close();
  if (!made.ok) return said(made);
  const { job } = made.value;
  await mkdir(OUT, { recursive: true });
  const path = join(OUT, 'night-heron.kickflat');
  const written = await files.write(path, packJob(made.value));
  if (!written.ok) return said(written);
  const decks = job.veneers.reduce((sum, veneer) => sum + veneer.decks, 0);
  processVoice.out(
    `${path}: ${job.name} for ${decks} decks on ${job.veneers.map((v) => v.name).join(', ')}\n\n`,
  );
  const filmed = await main(['films', path, '--out', join(OUT, 'films')]);
  if (filmed > 1) return filmed;
  const proofed = await proofs(job, made.value.art);
  if (proofed > 0) return proofed;
  const checked = await main(['check', path]);
  if (checked > 1) return checked;
  processVoice.out(
    `\nLook at ${join(OUT, 'films', 'assembly.pdf')} first: it shows how the sheets go together.\n`,
  );
  return 0;
}

const status = await demonstrate();
process.stdout.write('', () => process.exit(status));
