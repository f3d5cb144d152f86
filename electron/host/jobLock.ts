import { readFile, rm, writeFile } from 'node:fs/promises';
import { hostname } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { diskTrouble } from '../../core/sentences/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { troubleWith } from './fileTroubles.ts';

/** Held while a program may write a job; `release` may be called more than once. */
export interface JobLock {
  release(): Promise<void>;
}

interface Owner {
  readonly pid: number;
  readonly host: string;
}

const lockPath = (path: string) => join(dirname(path), `.${basename(path)}.lock`);

/** A lock counts for as long as its owner runs; one of another machine always counts, since nobody can tell. */
function holds(owner: Owner): boolean {
  if (owner.host !== hostname()) return true;
  try {
    process.kill(owner.pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

async function ownerOf(lock: string): Promise<Owner | null> {
  try {
    const read = JSON.parse(await readFile(lock, 'utf8')) as Partial<Owner>;
    return typeof read.pid === 'number' && typeof read.host === 'string'
      ? { pid: read.pid, host: read.host }
      : null;
  } catch {
    return null;
  }
}

/** Takes the job for this program, or says who has it. A lock that a dead program left is taken over. */
export async function lockJob(path: string): Promise<Outcome<JobLock>> {
  const lock = lockPath(path);
  const owner: Owner = { pid: process.pid, host: hostname() };
  for (let attempt = 0; attempt < 3; attempt++) {
    try {
      await writeFile(lock, `${JSON.stringify(owner)}\n`, { flag: 'wx' });
      return done({ release: () => rm(lock, { force: true }) });
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') return troubleWith(path, error);
      const other = await ownerOf(lock);
      if (other && holds(other) && !(other.pid === owner.pid && other.host === owner.host))
        return diskTrouble.openElsewhere(path, other.pid, other.host);
      await rm(lock, { force: true });
    }
  }
  return diskTrouble.beingOpened(path);
}
