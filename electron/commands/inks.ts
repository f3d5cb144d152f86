import { join } from 'node:path';
import { FACES, type Face } from '../../core/deck/index.ts';
import { isToned, type Job, type JobFile } from '../../core/job/index.ts';
import { jobTrouble, optionTrouble } from '../../core/sentences/index.ts';
import { suggestAround, type TriedInks } from '../../core/separate/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { TRIAL_SIDE } from '../host/index.ts';
import { lookAt } from './artIn.ts';
import type { Command, Context } from './context.ts';
import { MOST_INKS, ownInks } from './inkChoice.ts';
import { openJobFile } from './openJob.ts';
import { type CommandSpec, choiceOf, numberOf } from './options.ts';
import { sayJson } from './say.ts';
import { veneerFrom } from './veneerChoice.ts';

export const spec: CommandSpec = {
  name: 'inks',
  takes: ['JOB'],
  does: 'inks found in the art, with one fewer and one more beside them: how near each set comes to the art',
  options: [
    { name: 'face', value: 'bottom|top', help: 'the face whose art is looked at (the first with art)' },
    { name: 'count', value: 'N', help: 'how many inks (as many as the art asks for)' },
    { name: 'from-shelf', help: 'only inks of your own shelf' },
    { name: 'veneer', value: "NAME|'#hex'", help: 'the wood between dots (the job’s first)' },
    {
      name: 'proofs',
      value: 'DIR',
      help: 'a new or empty folder for a small proof of each set, inks-<n>.png',
    },
    { name: 'json', help: 'prints the sets as JSON' },
  ],
  more: [
    'ΔE00 says how far colours are from the art: below 1 no one sees it, from 5 on it shows at a glance.',
    'The job stays as it is; kickflat new --inks N takes as many.',
  ],
  examples: ['kickflat inks out/night-heron.kickflat --count 5'],
};

/** The sets tried on the topmost piece of the face that is shown. */
async function tried(
  context: Context,
  { job, art }: JobFile,
  face: Face,
  wanted: { readonly count: number | null; readonly bare: string; readonly fromShelf: boolean },
): Promise<Outcome<TriedInks[]>> {
  const settings = job.faces[face];
  const piece = settings.art.findLast((one) => !one.hidden);
  const bytes = piece && art.get(piece.hash);
  if (!piece || !bytes) return jobTrouble.faceWithoutArt(face);
  const probe = {
    mediaType: piece.mediaType,
    widthPx: piece.widthPx,
    heightPx: piece.heightPx,
    stated: null,
    alpha: true,
    vector: piece.mediaType === 'image/svg+xml',
  };
  const look = await lookAt(context, bytes, piece.name, probe, TRIAL_SIDE);
  if (!look.ok) return look;
  const shelf = wanted.fromShelf ? await ownInks() : done(undefined);
  if (!shelf.ok) return shelf;
  const sets = suggestAround(look.value, wanted.count, {
    ground: piece.ground,
    shelf: shelf.value,
    kept: settings.inks.flatMap((ink) => (ink.kept && ink.role === 'colour' ? [ink.matches ?? ink.hex] : [])),
    bare: wanted.bare,
    toned: isToned(settings),
  });
  return sets.length > 0 ? done(sets) : optionTrouble.noColours();
}

/** The wood asked for, or the job's first. */
function bareOf(job: Job, text: string | undefined): Outcome<string> {
  const veneer = text === undefined ? done(job.veneers[0]!) : veneerFrom(text, job.veneers);
  return veneer.ok ? done(veneer.value.hex) : veneer;
}

const percent = (share: number) => `${(100 * share).toFixed(share < 0.1 ? 1 : 0)} %`;

function say({ voice }: Context, sets: readonly TriedInks[]): void {
  for (const { inks, fit, advised, beyond } of sets) {
    const n = `${inks.length} ${inks.length === 1 ? 'ink' : 'inks'}`;
    const about = advised ? ', advised' : beyond ? ', one more than the art has' : '';
    voice.out(
      `${n}${about}: ΔE00 ${fit.mean.toFixed(1)} in the mean, 95 of 100 points below ${fit.most.toFixed(1)}, ${percent(fit.off)} off by 5 or more\n`,
    );
    for (const { hex, name, share } of inks) voice.out(`  ${hex}  ${percent(share).padStart(6)}  ${name}\n`);
  }
}

export const run: Command = async (given, context): Promise<Outcome<0>> => {
  const asked = choiceOf(given, 'face', FACES);
  if (!asked.ok) return asked;
  const count = numberOf(given, 'count', { least: 1, most: MOST_INKS, whole: true });
  if (!count.ok) return count;
  const file = await openJobFile(context, given.words[0] as string);
  if (!file.ok) return file;
  const { job } = file.value;
  const face = asked.value ?? FACES.find((f) => job.faces[f].art.some((one) => !one.hidden)) ?? 'bottom';
  const bare = bareOf(job, given.text('veneer'));
  if (!bare.ok) return bare;
  const wanted = { count: count.value ?? null, bare: bare.value, fromShelf: given.flag('from-shelf') };
  const sets = await tried(context, file.value, face, wanted);
  if (!sets.ok) return sets;
  const folder = given.text('proofs');
  const proofs = new Map<string, Uint8Array>();
  if (folder !== undefined) {
    for (const { inks, fit } of sets.value)
      proofs.set(`inks-${inks.length}.png`, await context.codec.encodePng(fit.proof, 72));
    const written = await context.files.writeAll(folder, proofs);
    if (!written.ok) return written;
  }
  if (given.flag('json'))
    sayJson(context.voice, {
      face,
      sets: sets.value.map(({ inks, fit: { mean, most, off }, advised, beyond }) => {
        const name = `inks-${inks.length}.png`;
        const proof = folder !== undefined && proofs.has(name) ? join(folder, name) : null;
        return { inks, advised, beyond, deltaE00: { mean, most, off }, proof };
      }),
    });
  else say(context, sets.value);
  return done(0);
};
