import { readdirSync, readFileSync } from 'node:fs';

/** Ticks a second that Linux counts processor time in: its interface to programs has 100 on every usual machine. */
const TICKS = 100;
const POLL_MS = 200;
/** Seconds by the clock after which nobody waits any longer, however busy the machine is. */
const LONGEST_S = 60;

/** Seconds of processor time a process and its threads have had; null where the system does not tell (it does on Linux). */
export function processorSeconds(pid: number | undefined): number | null {
  if (pid === undefined || process.platform !== 'linux') return null;
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
    // After the name in brackets, which may hold anything: fields 14 and 15, proc(5).
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
    return (Number(fields[11]) + Number(fields[12])) / TICKS;
  } catch {
    return null;
  }
}

/**
 * Seconds that the thread of a process which waited longest was ready to work while others had the processors; 0 where the
 * system does not tell.
 */
export function waitedSeconds(pid: number | undefined): number {
  if (pid === undefined || process.platform !== 'linux') return 0;
  let longest = 0;
  try {
    for (const thread of readdirSync(`/proc/${pid}/task`)) {
      // Nanoseconds on a processor, nanoseconds waited for one, turns: the kernel's documentation of schedstat.
      const [, waited] = readFileSync(`/proc/${pid}/task/${thread}/schedstat`, 'utf8').split(' ');
      longest = Math.max(longest, Number(waited) / 1e9);
    }
  } catch {
    // A thread that ended meanwhile, or a system without these figures.
  }
  return longest;
}

/**
 * Calls `late` when a process has worked for `seconds`, or `most` seconds have gone by on the clock and it had its turn: it
 * worked for a third of `seconds`, or never waited for a processor. On a busy machine a good file then gets the work it needs.
 * After `LONGEST_S` it is late in any case. Where processor time is not told the clock alone decides, after `seconds`. Returns
 * what stops the watch.
 */
export function watchLateness(
  pid: () => number | undefined,
  seconds: number,
  most: number,
  late: () => void,
): () => void {
  const started = performance.now();
  const before = processorSeconds(pid()) ?? 0;
  const timer = setInterval(() => {
    const gone = (performance.now() - started) / 1000;
    const worked = processorSeconds(pid());
    const work = worked === null ? gone : worked - before;
    const hadItsTurn = work >= seconds / 3 || gone - waitedSeconds(pid()) >= most;
    if (gone < LONGEST_S && work < seconds && !(gone >= Math.max(seconds, most) && hadItsTurn)) return;
    clearInterval(timer);
    late();
  }, POLL_MS);
  return () => clearInterval(timer);
}
