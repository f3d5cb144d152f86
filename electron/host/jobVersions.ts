import { createHash } from 'node:crypto';
import type { FileStore } from '../../core/ports/index.ts';
import { diskTrouble } from '../../core/sentences/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { MOST_JOB_BYTES } from './jobFile.ts';

/** The writing that goes on for each path of this process; its windows take turns, so that none slips in between. */
const turns = new Map<string, Promise<unknown>>();

/** Runs `work` once whatever else this process does with the path is over. */
async function inTurn<T>(path: string, work: () => Promise<T>): Promise<T> {
  const before = turns.get(path) ?? Promise.resolve();
  const mine = before.then(work, work);
  const over = mine.then(
    () => undefined,
    () => undefined,
  );
  turns.set(path, over);
  try {
    return await mine;
  } finally {
    if (turns.get(path) === over) turns.delete(path);
  }
}

const sum = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');

/**
 * What each window (`tab`) last knew the file of a job to hold. A window saves over a file only while the file still is
 * what the window opened or saved: what another window or program wrote meanwhile is never lost.
 */
export function jobVersions(files: FileStore) {
  const known = new Map<string, string>();
  const key = (tab: string, path: string) => `${tab}\n${path}`;
  return {
    /** The window now knows the file to hold these bytes. */
    note(tab: string, path: string, bytes: Uint8Array): void {
      known.set(key(tab, path), sum(bytes));
    },
    /** Writes with `write` unless somebody else changed the file. `chosen`: the user picked the path just now, and may replace it. */
    save(
      tab: string,
      path: string,
      bytes: Uint8Array,
      chosen: boolean,
      write: () => Promise<Outcome<void>>,
    ): Promise<Outcome<void>> {
      return inTurn(path, async () => {
        if (!chosen) {
          const there = await files.read(path, MOST_JOB_BYTES);
          // A file that is gone, or can not be read, has nothing to lose by it; the writing itself tells of trouble.
          if (there.ok && sum(there.value) !== known.get(key(tab, path))) return diskTrouble.savedElsewhere();
        }
        const written = await write();
        if (!written.ok) return written;
        known.set(key(tab, path), sum(bytes));
        return done(undefined);
      });
    },
  };
}
