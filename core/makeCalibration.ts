import { strToU8 } from 'fflate';
import { calibrationFrame, type FilmPrinter } from './film/index.ts';
import { canonicalJson, type Job } from './job/index.ts';
import { jobPrinter } from './jobPrinter.ts';
import { calibrationPdf } from './pdf/index.ts';
import type { Deflate } from './ports/index.ts';
import { filmTrouble } from './sentences/index.ts';
import { done, type Outcome } from './units/index.ts';

const measured = ({ scaleX, scaleY, skewDeg = 0 }: FilmPrinter): boolean =>
  scaleX !== 1 || scaleY !== 1 || skewDeg !== 0;

/**
 * The sheet a printer is measured by and, once it is measured, the page that proves it: every length on that must be as
 * stated. Refused on sheets too small to measure.
 */
export async function calibrationFiles(
  printer: FilmPrinter,
  deflate: Deflate,
): Promise<Outcome<Map<string, Uint8Array>>> {
  const files = new Map<string, Uint8Array>();
  const sheet = await calibrationPdf(printer, { deflate, corrected: false });
  if (!sheet.ok) return sheet;
  files.set('calibration.pdf', sheet.value);
  if (measured(printer)) {
    const check = await calibrationPdf(printer, { deflate, corrected: true });
    if (!check.ok) return check;
    files.set('calibration-check.pdf', check.value);
  }
  return done(files);
}

/** The job's calibration sheet by itself, without art or inks: what is measured before the first film. */
export async function makeCalibration({
  job,
  deflate,
}: {
  readonly job: Job;
  readonly deflate: Deflate;
}): Promise<Outcome<{ readonly files: ReadonlyMap<string, Uint8Array> }>> {
  const known = jobPrinter(job);
  if (!known.ok) return known;
  const { printer } = known.value;
  const frame = calibrationFrame(printer);
  if (!frame) return filmTrouble.sheetTooSmallToMeasure();
  const made = await calibrationFiles(printer, deflate);
  if (!made.ok) return made;
  const { width, height, diagonal } = frame;
  const { scaleX, scaleY, skewDeg = 0 } = printer;
  const facts = {
    version: 1,
    job: job.name,
    lengths: { width, height, rising: diagonal, falling: diagonal },
    printer: { name: job.printer.name, scaleX, scaleY, skewDeg },
  };
  return done({ files: made.value.set('calibration.json', strToU8(canonicalJson(facts))) });
}
