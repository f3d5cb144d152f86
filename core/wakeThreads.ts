import type { Workers } from './ports/index.ts';
import type { Abort } from './units/index.ts';

/** Starts the threads, with their kernels, while their work is still being planned. Whether they start is seen by that work. */
export function wakeThreads(workers: Workers, abort?: Abort): void {
  for (let i = 0; i < workers.count; i++) workers.run('wake', null, abort).catch(() => {});
}
