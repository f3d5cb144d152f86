import * as Comlink from 'comlink';
import type { Picture } from '../../core/raster/index.ts';
import type { JobFileWorker } from './jobFileWorker.ts';
import type { StudioWorker } from './studioWorker.ts';

const start = () =>
  Comlink.wrap<StudioWorker>(new Worker(new URL('./studioWorker.ts', import.meta.url), { type: 'module' }));

/** `front` draws what is on the deck; `back` draws it fine and does what may take longer, so that it never holds the deck up. */
export const front = start();
export const back = start();
/** Packs and reads job files. */
export const filer = Comlink.wrap<JobFileWorker>(
  new Worker(new URL('./jobFileWorker.ts', import.meta.url), { type: 'module' }),
);

/** Hands a decoded picture to every worker that draws. */
export async function givePicture(hash: string, picture: Picture): Promise<void> {
  await Promise.all([front, back].map((worker) => worker.setPicture(hash, picture)));
}

/** Forgets the art of the job that was open before. */
export async function forgetArt(): Promise<void> {
  await Promise.all([front, back, filer].map((worker) => worker.forget()));
}
