import * as Comlink from 'comlink';
import type { Picture } from '../../core/raster/index.ts';
import type { RegisterCurve } from '../../core/trap/index.ts';
import type { GlassWorker } from './glassWorker.ts';
import type { TrialRequest, TrialWorker } from './trialWorker.ts';

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

/** Trials in a worker of their own; `stop` ends it at once and `curve` then never settles. */
export function tryRegister(
  request: TrialRequest,
  progress: (done: number, text: string) => void,
): { readonly curve: Promise<RegisterCurve>; stop(): void } {
  const worker = new Worker(new URL('./trialWorker.ts', import.meta.url), { type: 'module' });
  const curve = Comlink.wrap<TrialWorker>(worker)
    .curve(request, Comlink.proxy(progress))
    .finally(() => worker.terminate());
  return { curve, stop: () => worker.terminate() };
}
