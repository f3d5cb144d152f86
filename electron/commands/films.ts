import { FACES } from '../../core/deck/index.ts';
import { type FilmSet, makeFilms } from '../../core/makeFilms.ts';
import { deflate } from '../../core/raster/index.ts';
import { jobTrouble, optionTrouble } from '../../core/sentences/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { canWriteAll } from '../host/index.ts';
import type { Command } from './context.ts';
import { openJobFile } from './openJob.ts';
import type { CommandSpec } from './options.ts';
import { numberOf } from './options.ts';
import { PRINTER_OPTIONS, withPrinter } from './printerOptions.ts';
import { progressBar, sayJson, sayWritten, type Voice } from './say.ts';

export const spec: CommandSpec = {
  name: 'films',
  takes: ['JOB'],
  does: 'writes films.pdf, assembly.pdf and films.json',
  options: [
    { name: 'out', value: 'DIR', help: 'the folder to make; it must be new, empty, or hold earlier films' },
    { name: 'dpi', value: 'N', help: 'points to the inch (the job’s printer)' },
    ...PRINTER_OPTIONS,
    { name: 'masks', help: 'also each film before cutting, and before trapping, as a 1-bit PNG' },
    { name: 'composite', help: 'also separations.pdf, one page a face with an ink a colour' },
    { name: 'json', help: 'prints what was written as JSON' },
  ],
  examples: ['kickflat films out/night-heron.kickflat --out films --sheet letter --dpi 600'],
};

export const run: Command = async (given, context): Promise<Outcome<0>> => {
  const out = given.text('out');
  if (out === undefined) return optionTrouble.noFilmFolder();
  const dpi = numberOf(given, 'dpi', { least: 72, most: 2540, whole: true });
  if (!dpi.ok) return dpi;
  const file = await openJobFile(context, given.words[0] as string);
  if (!file.ok) return file;
  const job = await withPrinter(file.value.job, given);
  if (!job.ok) return job;
  const faces = FACES.filter((face) => job.value.faces[face].art.length > 0);
  if (faces.length === 0) return jobTrouble.noArt();
  // Said before the work rather than after it.
  const may = await canWriteAll(out);
  if (!may.ok) return may;
  const bar = progressBar(context.voice);
  const films = await makeFilms({
    job: job.value,
    art: file.value.art,
    faces,
    codec: context.codec,
    workers: context.workers(),
    deflate,
    masks: given.flag('masks'),
    composite: given.flag('composite'),
    ...(dpi.value === undefined ? {} : { dpi: dpi.value }),
    progress: bar.progress,
    abort: context.abort,
  }).finally(bar.clear);
  if (!films.ok) return films;
  const written = await context.files.writeAll(out, films.value.files);
  if (!written.ok) return written;
  const { manifest, files, notes } = films.value;
  const listed = [...files].map(([name, bytes]) => ({ name, bytes: bytes.length }));
  if (given.flag('json')) {
    sayJson(context.voice, {
      folder: out,
      files: listed,
      films: manifest.films.length,
      dpi: manifest.dpi,
      notes,
    });
    return done(0);
  }
  sayFilms(context.voice, out, films.value);
  return done(0);
};

/** The films with their sheets and ink, what the printer should know, and where the files are. */
export function sayFilms(voice: Voice, out: string, { manifest, notes, files }: FilmSet): void {
  for (const film of manifest.films)
    voice.out(
      `${film.face.padEnd(6)}  pull ${film.pull}  ${film.ink.padEnd(20)} ${film.sheets.length} sheet${film.sheets.length === 1 ? ' ' : 's'}  ${film.inkedCm2.toFixed(0).padStart(5)} cm²\n`,
    );
  for (const note of notes) voice.out(`note: ${note}\n`);
  sayWritten(voice, out, files);
}
