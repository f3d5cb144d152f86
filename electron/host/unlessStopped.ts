import { type Abort, cancelled, type Outcome } from '../../core/units/index.ts';

/** How often the flag is looked at, ms: it can not call. */
const POLL_MS = 20;

/** What `work` gives, or “stopped” soon after `abort` says so, while the work itself, which can not be stopped, comes to its end unheard. */
export function unlessStopped<T>(work: Promise<Outcome<T>>, abort?: Abort): Promise<Outcome<T>> {
  if (!abort) return work;
  return new Promise((resolve, reject) => {
    const poll = setInterval(() => {
      if (!abort.aborted) return;
      clearInterval(poll);
      resolve(cancelled());
    }, POLL_MS);
    work.then(resolve, reject).finally(() => clearInterval(poll));
  });
}
