import * as Comlink from 'comlink';
import { textTrouble } from '../../core/sentences/index.ts';
import type { SetText } from '../../core/text/index.ts';
import type { Outcome } from '../../core/units/index.ts';
import type { WordsRequest, WordsWorker } from './wordsWorker.ts';

/** ms after which a font is given up: a bad one must not keep the studio waiting. */
const MOST_MS = 8_000;

let worker: Worker | null = null;
let remote: Comlink.Remote<WordsWorker> | null = null;

/** Sets words in a worker of their own, started when first asked for and ended when a font keeps it too long. */
export async function setInWorker(
  request: WordsRequest,
): Promise<Outcome<SetText & { readonly family: string }>> {
  worker ??= new Worker(new URL('./wordsWorker.ts', import.meta.url), { type: 'module' });
  remote ??= Comlink.wrap<WordsWorker>(worker);
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<Outcome<never>>((resolve) => {
    timer = setTimeout(() => {
      worker?.terminate();
      worker = null;
      remote = null;
      resolve(textTrouble.fontTooSlow());
    }, MOST_MS);
  });
  try {
    return await Promise.race([remote.set(request), late]);
  } finally {
    clearTimeout(timer);
  }
}
