import { copyFile, rename, rm, stat } from 'node:fs/promises';
import type { FileStore } from '../../core/ports/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { troubleWith } from './fileTroubles.ts';
import { besideOf } from './wholeFile.ts';

/** Most bytes a job file may have; its art may be large. */
export const MOST_JOB_BYTES = 512 * 1024 * 1024;

/** Where the last good copy of a job lies. */
export const backupOf = (path: string): string => `${path}.bak`;

/** Writes a job; what was there before becomes its backup. At every moment the path holds the old job or the new one. */
export async function writeJobFile(
  files: FileStore,
  path: string,
  bytes: Uint8Array,
): Promise<Outcome<void>> {
  const there = await stat(path).catch(() => null);
  if (there?.isFile() && there.size > 0) {
    const copy = besideOf(path, 'new');
    try {
      await copyFile(path, copy);
      await rename(copy, backupOf(path));
    } catch (error) {
      await rm(copy, { force: true }).catch(() => undefined);
      return troubleWith(backupOf(path), error);
    }
  }
  const written = await files.write(path, bytes);
  return written.ok ? done(undefined) : written;
}
