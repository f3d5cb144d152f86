import { randomBytes } from 'node:crypto';
import { mkdir, open, realpath, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';

/** Marks everything that is not whole yet, or no longer wanted; `sweepLeftovers` knows it again. */
export const LEFTOVER = /^\..+\.kickflat-(new|old)-\d+-[0-9a-f]{8}$/;

/** A hidden name beside `path` that nobody else uses; the process id in it tells a live program's from a dead one's. */
export const besideOf = (path: string, kind: 'new' | 'old'): string =>
  join(
    dirname(path),
    `.${basename(path).slice(0, 120)}.kickflat-${kind}-${process.pid}-${randomBytes(4).toString('hex')}`,
  );

/** Asks the disk to keep a folder's names; systems without that (Windows) keep them by themselves. */
export async function flushFolder(dir: string): Promise<void> {
  try {
    const handle = await open(dir, 'r');
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? '';
    if (!['EISDIR', 'EPERM', 'EACCES', 'EINVAL', 'ENOTSUP', 'EBADF'].includes(code)) throw error;
  }
}

/** Writes a file that is not there yet and flushes it to the disk. */
export async function writeFlushed(path: string, bytes: Uint8Array): Promise<void> {
  const handle = await open(path, 'wx');
  try {
    await handle.writeFile(bytes);
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/**
 * All or nothing: a temporary file in the same folder, flushed, then renamed over `path`, then the folder flushed. A link
 * stays a link: the file it leads to is replaced. Throws the system's error and leaves nothing behind.
 */
export async function writeWhole(path: string, bytes: Uint8Array): Promise<void> {
  const target = await realpath(path).catch(() => path);
  const temporary = besideOf(target, 'new');
  try {
    await writeFlushed(temporary, bytes);
    await rename(temporary, target);
  } catch (error) {
    await rm(temporary, { force: true }).catch(() => undefined);
    throw error;
  }
  await flushFolder(dirname(target));
}

/**
 * Makes a folder and the folders above it; resolves with the topmost one made, or undefined when all were there. One at a
 * time: Node's own recursive way tries for ever where a system folder takes no new ones (seen in /proc on Node 20).
 */
export async function makeFolder(dir: string): Promise<string | undefined> {
  const missing: string[] = [];
  for (let at = dir; !(await stat(at).catch(() => null)); at = dirname(at)) {
    missing.unshift(at);
    if (dirname(at) === at) break;
  }
  for (const folder of missing)
    await mkdir(folder).catch((error: NodeJS.ErrnoException) => {
      // Made by another program meanwhile.
      if (error.code !== 'EEXIST') throw error;
    });
  return missing[0];
}
