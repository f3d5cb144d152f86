import { readdir, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { LEFTOVER } from './wholeFile.ts';

/** Whether a program of this id still runs here; a program of another user counts. */
function alive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/**
 * Clears what a killed program left in `dir`. An old folder whose successor never took its place goes back to its name;
 * everything else unfinished is removed. What belongs to a program that still runs is left alone.
 */
export async function sweepLeftovers(dir: string): Promise<void> {
  const names = await readdir(dir).catch(() => [] as string[]);
  for (const name of names) {
    if (!LEFTOVER.test(name)) continue;
    const match = /^\.(.+)\.kickflat-(new|old)-(\d+)-/.exec(name);
    if (!match || alive(Number(match[3]))) continue;
    const original = match[1] as string;
    const path = join(dir, name);
    if (match[2] === 'old' && !names.includes(original))
      await rename(path, join(dir, original)).catch(() => undefined);
    else await rm(path, { recursive: true, force: true }).catch(() => undefined);
  }
}
