import * as Comlink from 'comlink';
import { type Job, type JobFile, packJob, unpackJob } from '../../core/job/index.ts';
import type { Outcome } from '../../core/units/index.ts';

/** Packs and reads job files out of the window's way, so that keeping unsaved work never waits for a proof. */
const art = new Map<string, Uint8Array>();

const api = {
  /** Takes the art of a job that was opened in place of all that was here. */
  replaceArt(whole: ReadonlyMap<string, Uint8Array>): void {
    art.clear();
    for (const [hash, bytes] of whole) art.set(hash, bytes);
  },
  setArt(hash: string, bytes: Uint8Array): void {
    art.set(hash, bytes);
  },
  forget(): void {
    art.clear();
  },
  /** The job as one file's bytes. */
  pack(job: Job, extra: ReadonlyMap<string, Uint8Array>): Uint8Array {
    const bytes = packJob({ job, art, extra });
    return Comlink.transfer(bytes, [bytes.buffer]);
  },
  unpack(bytes: Uint8Array): Outcome<JobFile> {
    return unpackJob(bytes);
  },
};

export type JobFileWorker = typeof api;
Comlink.expose(api);
