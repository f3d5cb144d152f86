import { deckLength, FACES, type Face } from '../../core/deck/index.ts';
import type { Job } from '../../core/job/index.ts';
import { makeProof, type PlatesWanted, proofPlates } from '../../core/makeProof.ts';
import { proofGrid } from '../../core/proofGrid.ts';
import type { Picture } from '../../core/raster/index.ts';
import { optionTrouble } from '../../core/sentences/index.ts';
import { done, MM_PER_INCH, type Outcome } from '../../core/units/index.ts';
import type { Command } from './context.ts';
import { openJobFile } from './openJob.ts';
import type { CommandSpec } from './options.ts';
import { choiceOf, type Given, lengthOf, numberOf, unknown } from './options.ts';
import { sayJson } from './say.ts';
import { veneerFrom } from './veneerChoice.ts';

export const spec: CommandSpec = {
  name: 'proof',
  takes: ['JOB'],
  does: 'writes a picture of the printed deck',
  options: [
    { name: 'out', value: 'FILE.png', help: 'the picture to write' },
    { name: 'face', value: 'bottom|top', help: 'the face to show (bottom)' },
    { name: 'veneer', value: "NAME|'#hex'", help: 'the wood (the job’s first)' },
    { name: 'colourway', value: 'NAME', help: 'the inks’ colours (as they are)' },
    { name: 'grid', help: 'every veneer in every colourway on one picture, named (at 40 dpi)' },
    { name: 'dpi', value: 'N', help: 'points to the inch (150)' },
    { name: 'misregister', value: 'LENGTH', help: 'how far each pull wanders' },
    { name: 'seed', value: 'N', help: 'which wandering; the same seed, the same proof' },
    { name: 'json', help: 'prints what was written as JSON' },
  ],
  examples: ['kickflat proof out/night-heron.kickflat --veneer teal --out heron-teal.png'],
};

/** The job with the wanted veneer in it, and its id. */
function veneerOf(job: Job, given: Given): Outcome<{ job: Job; id: string }> {
  const wanted = given.text('veneer');
  if (wanted === undefined) return done({ job, id: (job.veneers[0] as { id: string }).id });
  const veneer = veneerFrom(wanted, job.veneers);
  if (!veneer.ok) return veneer;
  const { id } = veneer.value;
  if (job.veneers.some((v) => v.id === id)) return done({ job, id });
  return done({ job: { ...job, veneers: [...job.veneers, veneer.value] }, id });
}

function colourwayOf(job: Job, given: Given): Outcome<string | null> {
  const wanted = given.text('colourway');
  if (wanted === undefined) return done(null);
  const found = job.colourways.find((c) =>
    [c.id, c.name].some((n) => n.toLowerCase() === wanted.toLowerCase()),
  );
  if (found) return done(found.id);
  if (job.colourways.length === 0) return optionTrouble.noColourways();
  return unknown(
    'colourway',
    wanted,
    job.colourways.map((c) => c.id),
    '',
  );
}

/** More points than this a picture file is not looked at with. */
const MOST_POINTS = 120_000_000;

/** Every veneer in every colourway on one picture. */
async function gridOf(
  wanted: PlatesWanted & { misregisterMm: number; seed: number },
): Promise<Outcome<Picture>> {
  const { job, face, dpi, misregisterMm, seed } = wanted;
  const count = job.veneers.length * Math.max(1, job.colourways.length);
  const inches = (deckLength(job.deck, 'along') * job.deck.width) / MM_PER_INCH ** 2;
  if (count * inches * dpi ** 2 > MOST_POINTS)
    return optionTrouble.proofTooLarge(
      count,
      dpi,
      Math.max(20, Math.floor(Math.sqrt(MOST_POINTS / (count * inches)))),
    );
  const plates = await proofPlates(wanted);
  if (!plates.ok) return plates;
  return done(proofGrid({ job, face, plates: plates.value, misregisterMm, seed }).picture);
}

export const run: Command = async (given, context): Promise<Outcome<0>> => {
  const out = given.text('out');
  if (out === undefined) return optionTrouble.noProofFile();
  if (!/\.png$/i.test(out)) return optionTrouble.proofNotPng(out);
  const face = choiceOf(given, 'face', FACES);
  if (!face.ok) return face;
  const dpi = numberOf(given, 'dpi', { least: 20, most: 600 });
  if (!dpi.ok) return dpi;
  const misregister = lengthOf(given, 'misregister', { least: 0, most: 10 });
  if (!misregister.ok) return misregister;
  const seed = numberOf(given, 'seed', { least: 0, most: 0xffffffff, whole: true });
  if (!seed.ok) return seed;
  const file = await openJobFile(context, given.words[0] as string);
  if (!file.ok) return file;
  const veneer = veneerOf(file.value.job, given);
  if (!veneer.ok) return veneer;
  const colourway = colourwayOf(file.value.job, given);
  if (!colourway.ok) return colourway;
  const { job } = veneer.value;
  const shown: Face = face.value ?? FACES.find((f) => job.faces[f].art.length > 0) ?? 'bottom';
  if (given.flag('grid') && (given.text('veneer') ?? given.text('colourway')) !== undefined)
    return optionTrouble.gridAndVeneer();
  const at = dpi.value ?? (given.flag('grid') ? 40 : 150);
  const wanted = {
    job,
    art: file.value.art,
    face: shown,
    dpi: at,
    misregisterMm: misregister.value ?? 0,
    seed: seed.value ?? 1,
    codec: context.codec,
    workers: context.workers(),
  };
  const picture = given.flag('grid')
    ? await gridOf(wanted)
    : await makeProof({ ...wanted, veneerId: veneer.value.id, colourwayId: colourway.value });
  if (!picture.ok) return picture;
  const { width, height } = picture.value;
  const written = await context.files.write(out, await context.codec.encodePng(picture.value, at));
  if (!written.ok) return written;
  if (given.flag('json')) sayJson(context.voice, { file: out, face: shown, width, height, dpi: at });
  else context.voice.out(`${out}: ${shown} face, ${width} × ${height} points\n`);
  return done(0);
};
