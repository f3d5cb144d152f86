import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { FACES, type Face } from '../core/deck/index.ts';
import { faceProof } from '../core/facePreview.ts';
import { type Job, type JobFile, packJob } from '../core/job/index.ts';
import { layFaces } from '../core/layFaces.ts';
import { makeFilms } from '../core/makeFilms.ts';
import { makePress } from '../core/makePress.ts';
import { proofPlates } from '../core/makeProof.ts';
import { deflate } from '../core/raster/index.ts';
import { done, type Failure, type Outcome } from '../core/units/index.ts';
import { main, makeContext } from './cli.ts';
import { type Context, processVoice, sayFilms, sayWritten } from './commands/index.ts';
import { demoJob } from './demoJob.ts';
import { demoDir } from './places.ts';

/** The folder everything goes to, as a person in the checkout names it. */
const OUT = 'out';
const JOB = join(OUT, 'night-heron.kickflat');
const FILMS = join(OUT, 'films');
const PRESS = join(OUT, 'press');
/** Points to the inch of its proofs. */
const PROOF_DPI = 150;

/** The job's file. */
async function job({ files, codec, voice }: Context): Promise<Outcome<JobFile>> {
  const made = await demoJob(demoDir(), files, codec);
  if (!made.ok) return made;
  await mkdir(OUT, { recursive: true });
  const written = await files.write(JOB, packJob(made.value));
  if (!written.ok) return written;
  const { name, veneers } = made.value.job;
  const decks = veneers.reduce((sum, veneer) => sum + veneer.decks, 0);
  voice.out(`${JOB}: ${name} for ${decks} decks on ${veneers.map((v) => v.name).join(', ')}\n\n`);
  return made;
}

/** Films and press sheets, both from one separation of each face. */
async function filmsAndPress(file: JobFile, context: Context): Promise<Outcome<null>> {
  const { files, codec, voice } = context;
  const request = { ...file, codec, workers: context.workers(), deflate, faces: FACES };
  const laid = await layFaces({ ...request, pack: true, assembly: true });
  if (!laid.ok) return laid;
  const shared = { ...request, laid: laid.value };
  const films = await makeFilms({ ...shared, masks: false, composite: false });
  if (!films.ok) return films;
  const filmed = await files.writeAll(FILMS, films.value.files);
  if (!filmed.ok) return filmed;
  sayFilms(voice, FILMS, films.value);
  const press = await makePress(shared);
  if (!press.ok) return press;
  const pressed = await files.writeAll(PRESS, press.value.files);
  if (!pressed.ok) return pressed;
  sayWritten(voice, PRESS, press.value.files);
  return done(null);
}

/** A proof of the bottom on each veneer and in each other colourway, and one of the top, from one separation a face. */
async function proofs({ job, art }: JobFile, context: Context): Promise<Outcome<null>> {
  const { files, codec, voice } = context;
  const veneer = (job.veneers[0] as Job['veneers'][number]).id;
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
  for (const face of FACES) {
    const plates = await proofPlates({ job, art, face, dpi: PROOF_DPI, codec, workers: context.workers() });
    if (!plates.ok) return plates;
    for (const { name, veneerId, colourwayId } of wanted.filter((w) => w.face === face)) {
      const picture = faceProof({ job, face, veneerId, colourwayId, ...plates.value });
      const path = join(OUT, `proof-${name}.png`);
      const written = await files.write(path, await codec.encodePng(picture, PROOF_DPI));
      if (!written.ok) return written;
      voice.out(`${path}: ${face} face, ${picture.width} × ${picture.height} points\n`);
    }
  }
  return done(null);
}

/** Says a failure as the command line does, and its exit status. */
function said(failure: Failure): number {
  processVoice.err(`kickflat: ${failure.reason} ${failure.mend}\n`);
  return failure.kind === 'input' ? 2 : 3;
}

const GUIDE = `
Look at these, in ${OUT}/:
  films/assembly.pdf    first: how the sheets of each film are cut and taped
  films/films.pdf       the films, to print at 100 %, never “fit to page”
  proof-*.png           the decks as they will look, on each veneer
  press/run-sheet.pdf   what to do in what order, a page for each pull
  press/jig.pdf, squeegee.pdf, calibration.pdf, step-test.pdf
                        jig and squeegee to saw, printer and lamp to measure
  night-heron.kickflat  the job itself: npm start, then open it
`;

/** Makes the demonstration job, then does with it what anyone would do by the command line. */
async function demonstrate(): Promise<number> {
  const context = makeContext(processVoice, { aborted: false });
  try {
    const made = await job(context);
    if (!made.ok) return said(made);
    for (const step of [filmsAndPress, proofs]) {
      const ended = await step(made.value, context);
      if (!ended.ok) return said(ended);
    }
  } finally {
    await context.close();
  }
  const checked = await main(['check', JOB]);
  if (checked > 1) return checked;
  processVoice.out(GUIDE);
  return 0;
}

const status = await demonstrate();
process.stdout.write('', () => process.exit(status));
