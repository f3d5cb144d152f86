import * as Comlink from 'comlink';
import type { Face } from '../../core/deck/index.ts';
import type { Job } from '../../core/job/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import type { PlannedFilms } from './filmPlan.ts';
import type { SheetWorker } from './sheetWorker.ts';
import { back } from './studioWorkers.ts';

let sheets: Comlink.Remote<SheetWorker> | null = null;
/** Number of the prints that `sheets` holds of each face. */
const held = new Map<Face, number>();

/** How the films of a face fall on sheets. The worker that lays them is started when first asked for. */
export async function planFilms(job: Job, face: Face): Promise<Outcome<PlannedFilms>> {
  sheets ??= Comlink.wrap<SheetWorker>(
    new Worker(new URL('./sheetWorker.ts', import.meta.url), {
      type: 'module',
    }),
  );
  for (;;) {
    const made = await back.prints(job, face, held.get(face) ?? null);
    if (!made.ok) return made;
    let number = made.value;
    if (typeof number !== 'number') {
      const masks = number.prints.prints.map(({ data }) => data.buffer as ArrayBuffer);
      await sheets.take(face, Comlink.transfer(number, masks));
      number = number.number;
      held.set(face, number);
    }
    const films = await sheets.plan(job, face, number);
    if (films) return done(films);
    // Another job was opened meanwhile, and its art forgotten: the prints are asked for once more.
    held.delete(face);
  }
}

/** The same when nothing but boundaries has changed since the last plan of the face: the prints are those it has. */
export async function moveSheets(job: Job, face: Face): Promise<Outcome<PlannedFilms>> {
  const films = await sheets?.plan(job, face, null);
  return films ? done(films) : planFilms(job, face);
}

/** Forgets another job's films. */
export async function forgetFilms(): Promise<void> {
  held.clear();
  await sheets?.forget();
}
