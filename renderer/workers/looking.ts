import * as Comlink from 'comlink';
import type { Picture } from '../../core/raster/index.ts';
import type { AroundOptions } from '../../core/separate/index.ts';
import type { RegisterCurve } from '../../core/trap/index.ts';
import { type CurveWish, type TriedFace, trialCurve } from '../../core/trapTrials.ts';
import type { Outcome } from '../../core/units/index.ts';
import type { GlassWorker } from './glassWorker.ts';
import type { SuggestedInks, SuggestWorker } from './suggestWorker.ts';
import type { TrialWorker } from './trialWorker.ts';

let glassWorker: Comlink.Remote<GlassWorker> | null = null;
const given = new Set<string>();

/**
 * The worker behind the loupe, the moved pull and the trials. It is started when first asked for, and holds the art finer
 * than the board does; `decode` is asked for what it has not seen yet.
 */
export async function glass(
  hashes: readonly string[],
  decode: (hash: string) => Promise<Picture | null>,
): Promise<Comlink.Remote<GlassWorker>> {
  glassWorker ??= Comlink.wrap<GlassWorker>(
    new Worker(new URL('./glassWorker.ts', import.meta.url), { type: 'module' }),
  );
  for (const hash of hashes) {
    if (given.has(hash)) continue;
    const picture = await decode(hash);
    if (!picture) continue;
    given.add(hash);
    await glassWorker.setPicture(hash, Comlink.transfer(picture, [picture.data.buffer]));
  }
  return glassWorker;
}

/** Forgets another job's art. */
export async function forgetGlass(): Promise<void> {
  given.clear();
  await glassWorker?.forget();
}

/** Threads for trials: one is left for the window; beyond four, memory is what is waited for. */
const lanes = (): number => Math.max(1, Math.min(4, (navigator.hardwareConcurrency || 2) - 1));

/** Trials in workers of their own; `stop` ends them at once and `curve` then never settles. */
export function tryRegister(
  face: TriedFace,
  wish: CurveWish,
  progress: (done: number, text: string) => void,
): { readonly curve: Promise<Outcome<RegisterCurve>>; stop(): void } {
  const workers = Array.from(
    { length: lanes() },
    () => new Worker(new URL('./trialWorker.ts', import.meta.url), { type: 'module' }),
  );
  const hands = workers.map((worker) => Comlink.wrap<TrialWorker>(worker));
  const stop = () => {
    for (const worker of workers) worker.terminate();
  };
  const run = async () => {
    await Promise.all(hands.map((hand) => hand.take(face)));
    return trialCurve(wish, hands.length, (part, lane) => hands[lane]!.part(part), progress);
  };
  return { curve: run().finally(stop), stop };
}

let suggestWorker: Comlink.Remote<SuggestWorker> | null = null;

/** Inks for a piece of art, with one fewer and one more, and how near each set comes. The art changes hands. */
export function suggestedInks(
  art: Picture,
  count: number | null,
  options: AroundOptions,
): Promise<SuggestedInks[]> {
  suggestWorker ??= Comlink.wrap<SuggestWorker>(
    new Worker(new URL('./suggestWorker.ts', import.meta.url), { type: 'module' }),
  );
  return suggestWorker.around(Comlink.transfer(art, [art.data.buffer]), count, options);
}
