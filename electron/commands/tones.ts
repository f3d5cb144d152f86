import { FACES, type Face } from '../../core/deck/index.ts';
import { DEFAULT_HALFTONE, type Job, packJob, screensDots } from '../../core/job/index.ts';
import { optionTrouble } from '../../core/sentences/index.ts';
import { gainTable, printedTone, type TonePatch } from '../../core/separate/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { lockJob, writeJobFile } from '../host/index.ts';
import type { Command, Context } from './context.ts';
import { openJobFile } from './openJob.ts';
import { type CommandSpec, choiceOf, type Given } from './options.ts';
import { sayJson } from './say.ts';

/** As many patches as a job keeps. */
const MOST = 40;
/** Tones of the art that are shown, percent. */
const SHOWN = [5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95] as const;

export const spec: CommandSpec = {
  name: 'tones',
  takes: ['JOB'],
  does: 'how much darker screened tones print than their films: enters measured patches, shows the curve',
  options: [
    { name: 'face', value: 'bottom|top', help: 'the face (the first that screens dots)' },
    {
      name: 'printed',
      value: 'FILM=PRINTED,…',
      help: 'measured patches in percent, for example 25=38,50=66,75=88; they take the place of earlier ones',
    },
    { name: 'none', help: 'takes all measured patches out' },
    { name: 'json', help: 'prints the curve as JSON' },
  ],
  more: ['kickflat press writes tone-patches.pdf, the film to print and measure.'],
  examples: [
    'kickflat new --art build/demo/little-wave.svg --inks 2 --method halftone --out shaded.kickflat',
    'kickflat tones shaded.kickflat --printed 10=17,25=38,50=66,75=88',
  ],
};

/** “25=38,50=66” as shares; refused with what is wrong in it. */
export function readPatches(text: string): Outcome<TonePatch[]> {
  const patches: TonePatch[] = [];
  for (const part of text.split(',')) {
    const found = /^\s*(\d+(?:\.\d+)?)\s*%?\s*=\s*(\d+(?:\.\d+)?)\s*%?\s*$/.exec(part);
    if (!found) return optionTrouble.noTonePatch(part.trim().slice(0, 40));
    const [film, printed] = [Number(found[1]) / 100, Number(found[2]) / 100];
    if (film > 1 || printed > 1) return optionTrouble.toneOverFull(part.trim());
    if (patches.some((p) => p.film === film)) return optionTrouble.tonePatchTwice(film * 100);
    patches.push({ film, printed });
  }
  if (patches.length > MOST) return optionTrouble.tooManyTonePatches(patches.length, MOST);
  patches.sort((a, b) => a.film - b.film);
  const back = patches.findIndex((p, i) => i > 0 && p.printed < patches[i - 1]!.printed);
  if (back > 0) return optionTrouble.toneTurnsBack(Math.round(patches[back]!.film * 100));
  return done(patches);
}

/** The face asked for, or the first that screens dots. */
function faceOf(given: Given, job: Job): Outcome<Face> {
  const asked = choiceOf(given, 'face', FACES);
  if (!asked.ok) return asked;
  const face = asked.value ?? FACES.find((f) => screensDots(job.faces[f]));
  if (face !== undefined && screensDots(job.faces[face])) return done(face);
  return asked.value === undefined
    ? optionTrouble.jobWithoutDots()
    : optionTrouble.faceWithoutDots(asked.value);
}

function say({ voice }: Context, given: Given, job: Job, face: Face): void {
  const gain = job.faces[face].halftone?.gain ?? {};
  const printed = printedTone(gain);
  const table = gainTable(gain);
  const rows = SHOWN.map((asked) => ({
    asked,
    prints: 100 * printed(asked / 100),
    film: (100 * table[Math.round((asked / 100) * 255)]!) / 255,
  }));
  if (given.flag('json')) {
    sayJson(voice, { face, gain, tones: rows });
    return;
  }
  const from = gain.patches?.length
    ? `${gain.patches.length} measured ${gain.patches.length === 1 ? 'patch' : 'patches'}`
    : gain.midtone
      ? `a gain of ${Math.round(gain.midtone * 100)} % at one half`
      : 'no gain stated';
  voice.out(`Tones of the ${face}, from ${from}:\n`);
  voice.out(' tone   uncorrected film prints   film holds, to print it\n');
  for (const { asked, prints, film } of rows)
    voice.out(
      `${String(asked).padStart(4)} %   ${prints.toFixed(1).padStart(19)} %   ${film.toFixed(1).padStart(19)} %\n`,
    );
}

export const run: Command = async (given, context): Promise<Outcome<0>> => {
  const path = given.words[0] as string;
  const text = given.text('printed');
  if (text !== undefined && given.flag('none')) return optionTrouble.printedAndNone();
  const patches = text === undefined ? done(null) : readPatches(text);
  if (!patches.ok) return patches;
  if (patches.value === null && !given.flag('none')) {
    const file = await openJobFile(context, path);
    if (!file.ok) return file;
    const face = faceOf(given, file.value.job);
    if (!face.ok) return face;
    say(context, given, file.value.job, face.value);
    return done(0);
  }
  const lock = await lockJob(path);
  if (!lock.ok) return lock;
  try {
    const file = await openJobFile(context, path);
    if (!file.ok) return file;
    const face = faceOf(given, file.value.job);
    if (!face.ok) return face;
    const settings = file.value.job.faces[face.value];
    const halftone = settings.halftone ?? DEFAULT_HALFTONE;
    const job: Job = {
      ...file.value.job,
      faces: {
        ...file.value.job.faces,
        [face.value]: {
          ...settings,
          halftone: { ...halftone, gain: { ...halftone.gain, patches: patches.value ?? [] } },
        },
      },
    };
    const bytes = packJob({ job, art: file.value.art, extra: file.value.extra });
    const written = await writeJobFile(context.files, path, bytes);
    if (!written.ok) return written;
    say(context, given, job, face.value);
    return done(0);
  } finally {
    await lock.value.release();
  }
};
