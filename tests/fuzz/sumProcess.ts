import { makeFilms } from '../../core/makeFilms.ts';
import { deflate } from '../../core/raster/index.ts';
import { sharpCodec, workerPool } from '../../electron/host/index.ts';
import { filmSum } from './filmSum.ts';
import { SMALL_DPI, smallRun } from './smallRun.ts';

/** What a process that makes films once tells: where it believes to be, and their sum. */
export interface Summed {
  readonly locale: string;
  readonly zone: string;
  /** A number and a moment as that place writes them. */
  readonly written: string;
  readonly films: string;
}

async function summed(worker: string, threads: number): Promise<Summed> {
  const codec = sharpCodec();
  const workers = workerPool(worker, threads);
  const run = await smallRun(codec, 'Dalgakıran', 1);
  const films = await makeFilms({
    ...run,
    faces: ['bottom'],
    codec,
    workers,
    deflate,
    masks: true,
    composite: true,
    dpi: SMALL_DPI,
  });
  if (!films.ok) throw new Error(films.reason);
  await workers.close();
  const { locale, timeZone } = Intl.DateTimeFormat().resolvedOptions();
  const written = `${(1234567.5).toLocaleString()} ${new Date(0).toLocaleString()} ${new Date(0).getTimezoneOffset()}`;
  return {
    locale,
    zone: timeZone,
    written,
    films: filmSum(films.value.files),
  };
}

const [worker, threads] = process.argv.slice(2) as [string, string];
process.send?.(await summed(worker, Number(threads)));
process.disconnect?.();
