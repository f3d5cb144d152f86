import { randomBytes } from 'node:crypto';
import { mkdir, readdir, readFile, rename, rm, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { writeWhole } from './wholeFile.ts';

const NAMED = /^unsaved-(\d+)-([0-9a-f]{8})-(.{1,80})\.kickflat$/;

function running(pid: number): boolean {
  if (pid === process.pid) return true;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

export interface Unsaved {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/**
 * Work not saved yet, one file a window: `unsaved-<process>-<window>-<job's name>.kickflat`. It is there only while there
 * is something to lose, so what a program that no longer runs has left is what a crash would have taken.
 */
export function unsavedWork(dir: string, pid = process.pid) {
  const window = randomBytes(4).toString('hex');
  let current: string | null = null;
  const pathFor = (name: string) =>
    join(
      dir,
      `unsaved-${pid}-${window}-${
        name
          .replace(/[^\p{L}\p{N} _-]+/gu, '')
          .slice(0, 60)
          .trim() || 'job'
      }.kickflat`,
    );
  return {
    async keep(bytes: Uint8Array | null, name: string): Promise<void> {
      const before = current;
      const next = bytes === null ? null : pathFor(name);
      if (bytes !== null && next !== null) {
        await mkdir(dir, { recursive: true });
        await writeWhole(next, bytes);
      }
      current = next;
      if (before !== null && before !== next) await rm(before, { force: true });
    },
    /**
     * What this window itself kept, when its page was loaded again; else the newest work a dead program left, taken over
     * so that nobody else finds it; null when there is neither.
     */
    async recover(): Promise<Unsaved | null> {
      if (current !== null) {
        const bytes = await readFile(current).catch(() => null);
        const name = NAMED.exec(basename(current))?.[3];
        if (bytes && name !== undefined) return { name, bytes: new Uint8Array(bytes) };
      }
      let newest: { path: string; name: string; when: number } | null = null;
      for (const file of await readdir(dir).catch(() => [] as string[])) {
        const match = NAMED.exec(file);
        if (!match || running(Number(match[1]))) continue;
        const path = join(dir, file);
        const when = (await stat(path).catch(() => null))?.mtimeMs ?? 0;
        if (when > (newest?.when ?? 0)) newest = { path, name: match[3] as string, when };
      }
      if (!newest) return null;
      try {
        const mine = pathFor(newest.name);
        await rename(newest.path, mine);
        const bytes = new Uint8Array(await readFile(mine));
        current = mine;
        return { name: newest.name, bytes };
      } catch {
        return null;
      }
    },
  };
}
