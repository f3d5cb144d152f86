import { type CalibrationFrame, calibrate, calibrationFrame } from '../../core/film/index.ts';
import { FILM_MEDIA, FILM_MEDIUMS, type Job, type Printer, packJob } from '../../core/job/index.ts';
import { jobPrinter } from '../../core/jobPrinter.ts';
import { makeCalibration } from '../../core/makeCalibration.ts';
import { deflate } from '../../core/raster/index.ts';
import { filmTrouble, optionTrouble, shopTrouble } from '../../core/sentences/index.ts';
import { withPrinterFirst } from '../../core/shop/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { lockJob, shopFile, stateDir, writeJobFile } from '../host/index.ts';
import type { Command, Context } from './context.ts';
import { openJobFile } from './openJob.ts';
import { type CommandSpec, choiceOf, type Given, lengthOf, numberOf, type OptionSpec } from './options.ts';
import { PRINTER_OPTIONS, withPrinter } from './printerOptions.ts';
import { sayJson, sayWritten, type Voice } from './say.ts';

const OWN: readonly OptionSpec[] = [
  {
    name: 'measured',
    value: 'LENGTHS',
    help: 'four lengths measured on its calibration.pdf, cross to cross in mm: 1 to 2, 1 to 4, 1 to 3, 2 to 4',
  },
  { name: 'film', value: FILM_MEDIA.join('|'), help: 'what the films are printed on' },
  {
    name: 'shrink',
    value: 'PERCENT',
    help: 'by how much the film shrinks, one figure or width,height, where the printer was not measured on it',
  },
  { name: 'dpi', value: 'N', help: 'dots to the inch' },
  { name: 'overlap', value: 'LENGTH', help: 'what neighbouring sheets share' },
  { name: 'name', value: 'NAME', help: 'what the printer is called' },
];
const CHANGES = [...PRINTER_OPTIONS, ...OWN];

export const spec: CommandSpec = {
  name: 'printer',
  takes: ['JOB'],
  does: 'shows what a job’s films are printed on and how true; changes it, or corrects it by what was measured',
  options: [
    ...CHANGES,
    {
      name: 'out',
      value: 'DIR',
      help: 'the folder to make for calibration.pdf, and calibration-check.pdf once measured',
    },
    { name: 'keep', help: 'keeps the printer in your shop too, for the next jobs and --printer NAME' },
    { name: 'json', help: 'prints the printer as JSON' },
  ],
  more: [
    'With --out it writes calibration.pdf. Print that at 100 % on the film you use, measure, and enter the lengths with --measured; all films and press sheets are then corrected, and calibration-check.pdf proves it.',
    'The job as it was stays beside it as JOB.bak.',
  ],
  examples: [
    'kickflat printer out/night-heron.kickflat --out calibration',
    "kickflat printer out/night-heron.kickflat --name 'Office laser' --film laser-film --measured 170.3,239.6,293.9,293.9 --keep",
  ],
};

/** Numbers parted by commas, or null. */
function numbersIn(text: string): number[] | null {
  const parts = text.split(',').map((part) => part.trim().replace(/\s*(mm|%)$/, ''));
  return parts.every((part) => /^\d+(\.\d+)?$|^\.\d+$/.test(part)) ? parts.map(Number) : null;
}

/** Where the crosses of the job's calibration sheet stand. */
function frameOf(job: Job): Outcome<CalibrationFrame> {
  const known = jobPrinter(job);
  if (!known.ok) return known;
  const frame = calibrationFrame(known.value.printer);
  return frame ? done(frame) : filmTrouble.sheetTooSmallToMeasure();
}

/** Scale and lean from the four lengths; what was measured holds the film's shrink. */
function measuredOf(job: Job, given: Given): Outcome<Partial<Printer>> {
  const text = given.text('measured');
  if (text === undefined) return done({});
  if (given.flag('shrink')) return optionTrouble.shrinkMeasured();
  const lengths = numbersIn(text);
  if (lengths?.length !== 4) return optionTrouble.notFourLengths(text.slice(0, 60));
  const frame = frameOf(job);
  if (!frame.ok) return frame;
  const [width, height, rising, falling] = lengths as [number, number, number, number];
  const found = calibrate(frame.value, { width, height, rising, falling });
  return found.ok ? done({ ...found.value, shrinkX: 0, shrinkY: 0 }) : found;
}

function shrinkOf(given: Given): Outcome<Partial<Printer>> {
  const text = given.text('shrink');
  if (text === undefined) return done({});
  const shares = numbersIn(text);
  if (!shares || shares.length > 2 || shares.some((percent) => percent > 2))
    return optionTrouble.notShrink(text.slice(0, 60));
  const [x = 0, y = x] = shares;
  return done({ shrinkX: x / 100, shrinkY: y / 100 });
}

/** The job with the printer as it was asked for. */
async function changed(job: Job, given: Given): Promise<Outcome<Job>> {
  const chosen = await withPrinter(job, given);
  if (!chosen.ok) return chosen;
  const media = choiceOf(given, 'film', FILM_MEDIA);
  if (!media.ok) return media;
  const dpi = numberOf(given, 'dpi', { least: 72, most: 2540, whole: true });
  if (!dpi.ok) return dpi;
  const overlap = lengthOf(given, 'overlap', { least: 0, most: 100 });
  if (!overlap.ok) return overlap;
  const shrink = shrinkOf(given);
  if (!shrink.ok) return shrink;
  const name = given.text('name')?.slice(0, 120);
  const printer: Printer = {
    ...chosen.value.printer,
    ...(media.value === undefined ? {} : { media: media.value }),
    ...(dpi.value === undefined ? {} : { dpi: dpi.value }),
    ...(overlap.value === undefined ? {} : { overlap: overlap.value }),
    ...(name === undefined ? {} : { name }),
    ...shrink.value,
  };
  const asked = { ...chosen.value, printer };
  const found = measuredOf(asked, given);
  return found.ok ? done({ ...asked, printer: { ...printer, ...found.value } }) : found;
}

const percent = (share: number) => `${(share * 100).toFixed(3)} %`;

/** What the films are printed on, how true, and what its calibration sheet asks to measure. */
function say(voice: Voice, json: boolean, job: Job): void {
  const { printer } = job;
  const frame = frameOf(job);
  const asks = frame.ok ? frame.value : null;
  if (json) {
    const { width, height, diagonal } = asks ?? {};
    sayJson(voice, { printer, calibration: asks && { width, height, rising: diagonal, falling: diagonal } });
    return;
  }
  const line = (what: string, text: string) => voice.out(`${what.padEnd(12)} ${text}\n`);
  const { sheet, sheetWidth, sheetHeight, margin, overlap, dpi } = printer;
  const size = sheet === 'custom' ? `${sheetWidth} × ${sheetHeight} mm` : sheet;
  line('printer', printer.name || '(no name)');
  line('sheets', `${size}, ${margin} mm not printed at each edge, ${overlap} mm shared, ${dpi} dpi`);
  const medium = FILM_MEDIUMS.find(({ id }) => id === printer.media) ?? FILM_MEDIUMS[0]!;
  const shrinks = `shrinks ${percent(printer.shrinkX ?? 0)} by ${percent(printer.shrinkY ?? 0)}`;
  line('film', `${medium.label}, ${shrinks}`);
  line(
    'prints',
    `${percent(printer.scaleX)} wide, ${percent(printer.scaleY)} high, leaning ${(printer.skewDeg ?? 0).toFixed(3)}°`,
  );
  if (asks)
    line(
      'measure',
      `on calibration.pdf: 1 to 2 ${asks.width} mm, 1 to 4 ${asks.height} mm, 1 to 3 and 2 to 4 ${asks.diagonal.toFixed(1)} mm`,
    );
}

/** Puts the printer first among those the shop keeps. */
async function keepInShop(printer: Printer): Promise<Outcome<void>> {
  if (printer.name.trim() === '') return shopTrouble.printerWithoutName();
  const store = shopFile(stateDir());
  const shop = await store.read();
  if (!shop.ok) return shop;
  return store.keep({ ...shop.value, printers: withPrinterFirst(shop.value.printers, printer) });
}

async function change(path: string, given: Given, context: Context): Promise<Outcome<Job>> {
  const lock = await lockJob(path);
  if (!lock.ok) return lock;
  try {
    const file = await openJobFile(context, path);
    if (!file.ok) return file;
    const job = await changed(file.value.job, given);
    if (!job.ok) return job;
    const written = await writeJobFile(context.files, path, packJob({ ...file.value, job: job.value }));
    return written.ok ? job : written;
  } finally {
    await lock.value.release();
  }
}

export const run: Command = async (given, context): Promise<Outcome<0>> => {
  const path = given.words[0] as string;
  let job: Job;
  if (CHANGES.some(({ name }) => given.flag(name))) {
    const made = await change(path, given, context);
    if (!made.ok) return made;
    job = made.value;
  } else {
    const file = await openJobFile(context, path);
    if (!file.ok) return file;
    job = file.value.job;
  }
  if (given.flag('keep')) {
    const kept = await keepInShop(job.printer);
    if (!kept.ok) return kept;
  }
  const out = given.text('out');
  if (out !== undefined) {
    const made = await makeCalibration({ job, deflate });
    if (!made.ok) return made;
    const written = await context.files.writeAll(out, made.value.files);
    if (!written.ok) return written;
    if (!given.flag('json')) sayWritten(context.voice, out, made.value.files);
  }
  say(context.voice, given.flag('json'), job);
  return done(0);
};
