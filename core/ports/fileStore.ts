import type { Outcome } from '../units/index.ts';

/** Files, by path. `write` is all or nothing: a reader sees the old bytes or the new ones. */
export interface FileStore {
  read(path: string, maxBytes: number): Promise<Outcome<Uint8Array>>;
  write(path: string, bytes: Uint8Array): Promise<Outcome<void>>;
  /** A folder of new files, all or nothing: nothing appears at `dir` until every file is whole. */
  writeAll(dir: string, files: ReadonlyMap<string, Uint8Array>): Promise<Outcome<void>>;
}
