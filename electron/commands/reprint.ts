import { stat } from 'node:fs/promises';
import { packJob } from '../../core/job/index.ts';
import { reprintOf } from '../../core/reprint.ts';
import { lotsOf } from '../../core/runOf.ts';
import { diskTrouble, jobTrouble, optionTrouble } from '../../core/sentences/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import type { Command } from './context.ts';
import { openJobFile } from './openJob.ts';
import type { CommandSpec } from './options.ts';
import { sayJson } from './say.ts';

export const spec: CommandSpec = {
  name: 'reprint',
  takes: ['JOB'],
  does: 'begins another run of the same films: settings as they were last, nothing done yet, maybe in other colours',
  options: [
    { name: 'out', value: 'JOB', help: 'the job file to make; the old one stays as it is' },
    { name: 'colourway', value: 'NAME', help: 'a colourway the job has (the inks as drawn)' },
    { name: 'new-colourway', value: 'NAME', help: 'makes a colourway of that name, with --ink' },
    {
      name: 'ink',
      value: 'INK=#hex[=NAME]',
      many: true,
      help: 'what an ink, by its id or name, is printed with in the new colourway',
    },
    { name: 'remember', value: 'NAME', help: 'what the run that is over is remembered as (last run)' },
    { name: 'json', help: 'prints what was made as JSON' },
  ],
  examples: [
    "kickflat reprint out/night-heron.kickflat --new-colourway Dusk --ink 'Coral=#8a5fb0' --out dusk.kickflat",
  ],
};

type Inks = readonly { readonly id: string; readonly name: string }[];

/** `coral=#8a5fb0=Violet` for the ink with that id or name. */
function colourOf(text: string, inks: Inks): Outcome<readonly [string, { name: string; hex: string }]> {
  const [which = '', hex = '', name] = text.split('=').map((part) => part.trim());
  const ink =
    inks.find((one) => one.id === which) ??
    inks.find((one) => one.name.toLowerCase() === which.toLowerCase());
  if (!ink) return jobTrouble.noInk(which.slice(0, 60), [...new Set(inks.map((one) => one.name))].join(', '));
  if (!/^#[0-9a-f]{6}$/i.test(hex)) return optionTrouble.notColour(text.slice(0, 60));
  return done([ink.id, { name: name || ink.name, hex: hex.toLowerCase() }]);
}

export const run: Command = async (given, context): Promise<Outcome<0>> => {
  const out = given.text('out');
  if (out === undefined) return optionTrouble.noReprintFile();
  const file = await openJobFile(context, given.words[0] as string);
  if (!file.ok) return file;
  const { job } = file.value;
  const fresh = given.text('new-colourway');
  const asked = given.texts('ink');
  if (fresh !== undefined && given.flag('colourway')) return optionTrouble.colourwayTwice();
  if ((fresh === undefined) !== (asked.length === 0)) return optionTrouble.colourwayHalf();
  const colours: Record<string, { name: string; hex: string }> = {};
  for (const text of asked) {
    const read = colourOf(text, [...job.faces.bottom.inks, ...job.faces.top.inks]);
    if (!read.ok) return read;
    colours[read.value[0]] = read.value[1];
  }
  const made = reprintOf(job, {
    remember: given.text('remember') ?? 'last run',
    colourway: given.text('colourway') ?? null,
    ...(fresh === undefined ? {} : { fresh: { name: fresh, colours } }),
  });
  if (!made.ok) return made;
  if (await stat(out).catch(() => null)) return diskTrouble.alreadyThere(out);
  const written = await context.files.write(out, packJob({ ...file.value, job: made.value }));
  if (!written.ok) return written;
  const lots = lotsOf(made.value);
  if (given.flag('json')) {
    sayJson(context.voice, { job: out, name: job.name, lots });
    return done(0);
  }
  context.voice.out(`${out}: another run of ${job.name}; its films are those you have.\n`);
  for (const lot of lots)
    context.voice.out(`  ${lot.good} decks, ${lot.veneer}, ${lot.colourway} (start with ${lot.start})\n`);
  return done(0);
};
