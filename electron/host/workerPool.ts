import { cpus } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { Workers } from '../../core/ports/index.ts';
import type { Abort } from '../../core/units/index.ts';

/** Thrown by a task whose work was stopped; whoever set the abort flag expects it. */
export class Stopped extends Error {
  constructor() {
    super('stopped');
    this.name = 'AbortError';
  }
}

/** Asks the main thread of a worker. */
export interface TaskCall {
  readonly id: number;
  readonly task: string;
  readonly input: unknown;
}
/** What it answers. A bug inside a task comes back with its own stack. */
export type TaskAnswer =
  | { readonly id: number; readonly output: unknown }
  | { readonly id: number; readonly error: string; readonly stack: string };

interface Waiting extends TaskCall {
  readonly abort: Abort | undefined;
  resolve(output: unknown): void;
  reject(error: Error): void;
}
interface Hand {
  worker: Worker;
  busy: Waiting | null;
  /** Tasks it has done. */
  done: number;
}

/** How often the abort flags are looked at, ms: a flag can not call. */
const ABORT_POLL_MS = 20;
/**
 * A thread holds what it was sent until it collects, which an idle one never does, and keeps its working memory: after this
 * many tasks, or when nothing was wanted of it for so long, ms, it is ended, and another takes its place when there is need.
 */
const MOST_TASKS = 64;
const IDLE_MS = 2000;

/** MB of objects a thread may hold; masks lie outside. A stranger's file that unfolds beyond it ends the thread alone. */
const MOST_HEAP_MB = 1024;

/** As many threads as there are processors, at most four: beyond that films wait for memory, not for arithmetic. */
export const defaultWorkers = (): number => Math.max(1, Math.min(4, cpus().length));

/**
 * Worker threads that run the tasks of `core/tasks.ts` from the bundled `worker.cjs` at `entry`. Threads start when they
 * are first needed, and end when nothing was wanted of them for `idleMs`. A stopped task's thread is ended and replaced, so
 * nothing goes on in the dark.
 */
export function workerPool(entry: URL | string, count = defaultWorkers(), idleMs = IDLE_MS): Workers {
  const hands: Hand[] = [];
  const queue: Waiting[] = [];
  let nextId = 1;
  let closed = false;
  let poll: NodeJS.Timeout | undefined;
  let rest: NodeJS.Timeout | undefined;

  function answer(hand: Hand, message: TaskAnswer): void {
    const call = hand.busy;
    if (!call || call.id !== message.id) return;
    hand.busy = null;
    if ('error' in message) {
      const error = new Error(message.error);
      error.stack = message.stack;
      call.reject(error);
    } else call.resolve(message.output);
    if (++hand.done >= MOST_TASKS) dismiss(hand);
    next();
  }

  /** Ends a thread that has nothing to do. */
  function dismiss(hand: Hand): void {
    hands.splice(hands.indexOf(hand), 1);
    hand.worker.removeAllListeners();
    void hand.worker.terminate();
  }

  function lost(hand: Hand, error: Error): void {
    const at = hands.indexOf(hand);
    if (at >= 0) hands.splice(at, 1);
    hand.busy?.reject(error);
    hand.busy = null;
    next();
  }

  function hire(): Hand {
    const worker = new Worker(entry, { resourceLimits: { maxOldGenerationSizeMb: MOST_HEAP_MB } });
    const hand: Hand = { worker, busy: null, done: 0 };
    worker.on('message', (message: TaskAnswer) => answer(hand, message));
    worker.on('error', (error) => lost(hand, error instanceof Error ? error : new Error(String(error))));
    worker.on('exit', (code) => {
      if (hands.includes(hand)) lost(hand, new Error(`A worker ended with status ${code}.`));
    });
    hands.push(hand);
    return hand;
  }

  function stop(hand: Hand): void {
    const call = hand.busy;
    hands.splice(hands.indexOf(hand), 1);
    hand.busy = null;
    hand.worker.removeAllListeners();
    void hand.worker.terminate();
    call?.reject(new Stopped());
  }

  function watch(): void {
    for (const hand of [...hands]) if (hand.busy?.abort?.aborted) stop(hand);
    for (const call of [...queue])
      if (call.abort?.aborted) {
        queue.splice(queue.indexOf(call), 1);
        call.reject(new Stopped());
      }
    next();
  }

  function next(): void {
    while (queue.length > 0) {
      const hand = hands.find((h) => h.busy === null) ?? (hands.length < count ? hire() : null);
      if (!hand) break;
      const call = queue.shift() as Waiting;
      hand.busy = call;
      hand.worker.ref();
      const { id, task, input } = call;
      try {
        hand.worker.postMessage({ id, task, input } satisfies TaskCall);
      } catch (error) {
        hand.busy = null;
        call.reject(error as Error);
      }
    }
    const working = hands.some((h) => h.busy !== null);
    clearTimeout(rest);
    if (!working && hands.length > 0) {
      rest = setTimeout(() => {
        for (const hand of [...hands]) dismiss(hand);
      }, idleMs);
      rest.unref();
    }
    // Idle threads must not keep the program from ending.
    for (const hand of hands) if (hand.busy === null) hand.worker.unref();
    if (working && poll === undefined) poll = setInterval(watch, ABORT_POLL_MS);
    if (!working && poll !== undefined) {
      clearInterval(poll);
      poll = undefined;
    }
  }

  return {
    count,
    run<In, Out>(task: string, input: In, abort?: Abort): Promise<Out> {
      if (closed) return Promise.reject(new Error('The workers were sent home.'));
      if (abort?.aborted) return Promise.reject(new Stopped());
      return new Promise<Out>((resolve, reject) => {
        queue.push({ id: nextId++, task, input, abort, resolve: (output) => resolve(output as Out), reject });
        next();
      });
    },
    async close(): Promise<void> {
      closed = true;
      clearInterval(poll);
      clearTimeout(rest);
      poll = undefined;
      for (const call of queue.splice(0)) call.reject(new Stopped());
      const all = hands.splice(0);
      for (const hand of all) {
        hand.worker.removeAllListeners();
        hand.busy?.reject(new Stopped());
      }
      await Promise.all(all.map((hand) => hand.worker.terminate()));
    },
  };
}
