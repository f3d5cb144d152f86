import type { FileStore, ImageCodec, Workers } from '../../core/ports/index.ts';
import type { Abort, Outcome } from '../../core/units/index.ts';
import type { CommandSpec, Given } from './options.ts';
import type { Voice } from './say.ts';

/** What a command works with; made once by `cli.ts`, by tests as they like. */
export interface Context {
  readonly files: FileStore;
  readonly codec: ImageCodec;
  /** Started when first asked for. */
  workers(): Workers;
  readonly voice: Voice;
  readonly abort: Abort;
}

/** Exit status of a command that ended as it should: 0, or 1 when the check found errors. */
export type Command = (given: Given, context: Context) => Promise<Outcome<0 | 1>>;
export interface CommandEntry {
  readonly spec: CommandSpec;
  readonly run: Command;
}
