import type { Abort } from '../units/index.ts';

/**
 * A pool that runs named, pure tasks (`core/tasks.ts` is the table). Inputs and results are structured-clonable; masks in
 * shared memory are shared, not copied. Results never depend on `count`.
 */
export interface Workers {
  readonly count: number;
  run<In, Out>(task: string, input: In, abort?: Abort): Promise<Out>;
  close(): Promise<void>;
}
