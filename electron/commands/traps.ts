import { FACES, type Face } from '../../core/deck/index.ts';
import type { Job } from '../../core/job/index.ts';
import { asTolerance, ENOUGH_READINGS, learnedTolerance } from '../../core/loggedRegister.ts';
import { rulesOf } from '../../core/printInk.ts';
import { optionTrouble } from '../../core/sentences/index.ts';
import type { LearnedTolerance, RegisterCurve } from '../../core/trap/index.ts';
import { ACCEPTED_MM2, refuseDots, tryTraps, USUAL_TRIALS, widthsFor } from '../../core/trapTrials.ts';
import { done, failureAt, type Mm, type Outcome, parseLength } from '../../core/units/index.ts';
import type { Command, Context } from './context.ts';
import { openJobFile } from './openJob.ts';
import { type CommandSpec, choiceOf, type Given, lengthOf, numberOf } from './options.ts';
import { progressBar, sayJson } from './say.ts';

export const spec: CommandSpec = {
  name: 'traps',
  takes: ['JOB'],
  does: 'who spreads under whom, what a straying hand will show at each trap width, and the width to take',
  options: [
    { name: 'face', value: 'bottom|top', help: 'the face to try (the first with art)' },
    {
      name: 'tolerance',
      value: 'LENGTH|log',
      help: 'how far a pull strays; log: as the job’s log of printed decks teaches (the job’s)',
    },
    { name: 'widths', value: 'LENGTH,…', help: 'trap widths to try (none to twice the tolerance, in nine)' },
    {
      name: 'trials',
      value: 'N',
      help: `trials a width; 0 shows the pair table alone (${USUAL_TRIALS})`,
    },
    {
      name: 'accept',
      value: 'MM2',
      help: `gaps accepted on the whole face, mm², in 95 trials of 100 (${ACCEPTED_MM2})`,
    },
    { name: 'seed', value: 'N', help: 'which errors; the same seed, the same figures (1)' },
    { name: 'json', help: 'prints everything as JSON' },
  ],
  examples: ['kickflat traps out/night-heron.kickflat --tolerance 0.4mm'],
};

/** The tolerance asked for: a length, what the log teaches, or the job's own. */
function toleranceOf(given: Given, job: Job, learned: LearnedTolerance | null): Outcome<Mm> {
  if (given.text('tolerance')?.trim().toLowerCase() === 'log') {
    if (learned) return done(asTolerance(learned));
    return optionTrouble.nothingLearnt();
  }
  const length = lengthOf(given, 'tolerance', { least: 0.05, most: 10 });
  return length.ok ? done(length.value ?? Math.max(0.05, job.press.registerTolerance)) : length;
}

/** Most widths that are tried in one run. */
const MOST_WIDTHS = 40;

function widthsOf(given: Given, tolerance: Mm): Outcome<Mm[]> {
  const text = given.text('widths');
  if (text === undefined) return done(widthsFor(tolerance));
  const widths: Mm[] = [];
  for (const part of text.split(',')) {
    const read = parseLength(part.trim());
    if (!read.ok) return failureAt('--widths', read);
    if (read.value < 0 || read.value > 10) return optionTrouble.trapWidth(part.trim());
    widths.push(read.value);
  }
  if (widths.length > MOST_WIDTHS) return optionTrouble.tooManyWidths(widths.length, MOST_WIDTHS);
  return done(widths);
}

interface Said {
  readonly job: Job;
  readonly face: Face;
  readonly tolerance: Mm;
  readonly accept: number;
  readonly learned: LearnedTolerance | null;
  readonly curve: RegisterCurve | null;
}

const pairsOf = (job: Job, face: Face) =>
  rulesOf(job.faces[face]).map((rule) => ({
    spreads: job.faces[face].inks[rule.spreads]?.name ?? '',
    under: job.faces[face].inks[rule.under]?.name ?? '',
    widthMm: rule.widthMm,
    why: rule.why,
    overridden: rule.overridden,
  }));

function say({ voice }: Context, { job, face, tolerance, accept, learned, curve }: Said): void {
  for (const { spreads, under, widthMm, why } of pairsOf(job, face))
    voice.out(
      widthMm > 0
        ? `${spreads} spreads ${widthMm} mm under ${under}. ${why}\n`
        : `${spreads} and ${under} stay butted. ${why}\n`,
    );
  if (learned)
    voice.out(
      `\nYour log: ${learned.readings} readings of ${learned.screens} ${learned.screens === 1 ? 'screen' : 'screens'} stray by up to ${asTolerance(learned)} mm (19 in 20)${
        learned.readings < ENOUGH_READINGS ? `; ${ENOUGH_READINGS} or more would make that surer` : ''
      }.\n`,
    );
  if (!curve) return;
  voice.out(`\nEvery pull straying by up to ${tolerance} mm, ${face}:\n`);
  voice.out('   trap   half of the trials   95 of 100   widest gap\n');
  for (const { widthMm, areaMm2, widestMm } of curve.points)
    voice.out(
      `${widthMm.toFixed(2).padStart(5)} mm ${areaMm2.p50.toFixed(0).padStart(15)} mm² ${areaMm2.p95.toFixed(0).padStart(8)} mm² ${widestMm.p95.toFixed(2).padStart(9)} mm\n`,
    );
  voice.out(
    curve.recommendedMm === null
      ? `No width tried keeps the gaps under ${accept} mm²: hold register closer, or accept more.\n`
      : `Take ${curve.recommendedMm} mm: the smallest that keeps the gaps under ${accept} mm² in 95 trials of 100.\n`,
  );
}

export const run: Command = async (given, context): Promise<Outcome<0>> => {
  const asked = choiceOf(given, 'face', FACES);
  if (!asked.ok) return asked;
  const trials = numberOf(given, 'trials', { least: 0, most: 5000, whole: true });
  if (!trials.ok) return trials;
  const accepted = numberOf(given, 'accept', { least: 0, most: 1e6 });
  if (!accepted.ok) return accepted;
  const seed = numberOf(given, 'seed', { least: 0, most: 0xffffffff, whole: true });
  if (!seed.ok) return seed;
  const file = await openJobFile(context, given.words[0] as string);
  if (!file.ok) return file;
  const { job, art } = file.value;
  const face: Face = asked.value ?? FACES.find((f) => job.faces[f].art.length > 0) ?? 'bottom';
  const can = refuseDots(job, face);
  if (!can.ok) return can;
  const learned = learnedTolerance(job);
  const tolerance = toleranceOf(given, job, learned);
  if (!tolerance.ok) return tolerance;
  const widthsMm = widthsOf(given, tolerance.value);
  if (!widthsMm.ok) return widthsMm;
  const accept = accepted.value ?? ACCEPTED_MM2;
  const wish = {
    toleranceMm: tolerance.value,
    trials: trials.value ?? USUAL_TRIALS,
    seed: seed.value ?? 1,
    widthsMm: widthsMm.value,
    limitMm2: accept,
  };
  let curve: RegisterCurve | null = null;
  if (wish.trials > 0) {
    const bar = progressBar(context.voice);
    const made = await tryTraps(job, face, wish, {
      art,
      codec: context.codec,
      workers: context.workers(),
      progress: bar.progress,
      abort: context.abort,
    }).finally(bar.clear);
    if (!made.ok) return made;
    curve = made.value;
  }
  if (given.flag('json'))
    sayJson(context.voice, { face, ...wish, pairs: pairsOf(job, face), learned, ...(curve ?? {}) });
  else say(context, { job, face, tolerance: tolerance.value, accept, learned, curve });
  return done(0);
};
