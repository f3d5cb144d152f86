import { randomBytes } from 'node:crypto';
import { mkdir, readdir, readFile, rename, rm, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { done, type Outcome } from '../../core/units/index.ts';
import { troubleWith } from './fileTroubles.ts';
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
  /** Left by a program that died, and not kept by this window itself. */
  readonly found: boolean;
}

/**
 * Work not saved yet, one file a window: `unsaved-<process>-<window>-<job's name>.kickflat`. It is there only while there
 * is something to lose, so what a program that no longer runs has left is what a crash would have taken.
 */
export function unsavedWork(dir: string, pid = process.pid) {
  const tag = () => randomBytes(4).toString('hex');
  const window = tag();
  let current: string | null = null;
  /** What a dead program left lies apart, until its job is saved: whoever does not want it now may want it later. */
  let taken: { readonly path: string; readonly name: string } | null = null;
  const plain = (name: string) =>
    name
      .replace(/[^\p{L}\p{N} _-]+/gu, '')
      .slice(0, 60)
      .trim() || 'job';
  const pathFor = (name: string, of = window) => join(dir, `unsaved-${pid}-${of}-${plain(name)}.kickflat`);

  async function read(path: string, found: boolean): Promise<Unsaved | null> {
    const bytes = await readFile(path).catch(() => null);
    const name = NAMED.exec(basename(path))?.[3];
    return bytes && name !== undefined ? { name, bytes: new Uint8Array(bytes), found } : null;
  }

  async function keep(bytes: Uint8Array | null, name: string): Promise<Outcome<null>> {
    const before = current;
    const next = bytes === null ? null : pathFor(name);
    try {
      if (bytes !== null && next !== null) {
        await mkdir(dir, { recursive: true });
        await writeWhole(next, bytes);
      }
      current = next;
      if (bytes === null && taken?.name === plain(name)) {
        await rm(taken.path, { force: true });
        taken = null;
      }
      if (before !== null && before !== next) await rm(before, { force: true });
    } catch (error) {
      return troubleWith(next ?? before ?? dir, error);
    }
    return done(null);
  }

  /** One writing after the other, in the order they were asked for. */
  let last: Promise<unknown> = Promise.resolve();

  return {
    /** Keeps this in place of what was kept before; null forgets it, and what a dead program left under that name. */
    keep(bytes: Uint8Array | null, name: string): Promise<Outcome<null>> {
      const turn = last.then(() => keep(bytes, name));
      last = turn.catch(() => undefined);
      return turn;
    },
    /**
     * What this window itself kept, when its page was loaded again; else the newest work a dead program left, taken over
     * so that nobody else finds it while this program runs; null when there is neither.
     */
    async recover(): Promise<Unsaved | null> {
      const kept = current === null ? null : await read(current, false);
      if (kept) return kept;
      if (taken) return read(taken.path, true);
      let newest: { path: string; name: string; when: number } | null = null;
      for (const file of await readdir(dir).catch(() => [] as string[])) {
        const match = NAMED.exec(file);
        if (!match || running(Number(match[1]))) continue;
        const path = join(dir, file);
        const when = (await stat(path).catch(() => null))?.mtimeMs ?? 0;
        if (when > (newest?.when ?? 0)) newest = { path, name: match[3] as string, when };
      }
      if (!newest) return null;
      const mine = pathFor(newest.name, tag());
      try {
        await rename(newest.path, mine);
      } catch {
        // Another window was quicker.
        return null;
      }
      taken = { path: mine, name: plain(newest.name) };
      return read(mine, true);
    },
  };
}
