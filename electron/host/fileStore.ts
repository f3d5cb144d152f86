import { open, readdir, readFile, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import type { FileStore } from '../../core/ports/index.ts';
import { diskTrouble } from '../../core/sentences/index.ts';
import { done, type Failure, type Outcome } from '../../core/units/index.ts';
import { troubleWith } from './fileTroubles.ts';
import { sweepLeftovers } from './leftovers.ts';
import { besideOf, flushFolder, makeFolder, writeFlushed, writeWhole } from './wholeFile.ts';

/** Names of what Kickflat writes into an output folder; a folder that holds only these, and its manifest, is ours. */
const FILMS =
  /^(films\.pdf|films\.json|assembly\.pdf|separations\.pdf|(mask|separation)-(bottom|top)-\d+-[^/]+\.png)$/;
const PRESS =
  /^(run-sheet|jig|squeegee|calibration|step-test|tone-patches)(-(bottom|top|check))?\.(pdf|svg|dxf)$|^(press|calibration)\.json$/;
const MANIFEST = /^(films|press|calibration)\.json$/;
const PROOFS = /^proof-[^/]+\.png$/;
const isOurs = (name: string) => FILMS.test(name) || PRESS.test(name) || PROOFS.test(name);

async function holdsOnlyOurs(dir: string, names: readonly string[]): Promise<string | null> {
  const foreign = names.find((name) => !isOurs(name));
  if (foreign !== undefined) return foreign;
  const manifest = names.find((name) => MANIFEST.test(name));
  if (manifest === undefined) return names[0] ?? null;
  try {
    const read = JSON.parse(await readFile(join(dir, manifest), 'utf8')) as {
      version?: unknown;
      job?: unknown;
    };
    return read.version === 1 && typeof read.job === 'string' ? null : manifest;
  } catch {
    return manifest;
  }
}

/** The folder that `dir` may become, or why not: it must be new, empty, or hold only what Kickflat wrote before. */
async function mayReplace(dir: string): Promise<Outcome<'new' | 'replace'>> {
  let names: string[];
  try {
    names = await readdir(dir);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === 'ENOENT') return done('new');
    if (code === 'ENOTDIR') return diskTrouble.fileNotFolder(dir);
    return troubleWith(dir, error);
  }
  const foreign = await holdsOnlyOurs(dir, names);
  if (foreign !== null) return diskTrouble.foreignFiles(dir, foreign);
  return done('replace');
}

/** The topmost folder was made for this work: takes it away again when the work failed and it is empty. */
async function unmake(made: string | undefined, parent: string): Promise<void> {
  if (made === undefined) return;
  for (let dir = parent; dir.startsWith(made); dir = dirname(dir)) {
    if ((await readdir(dir).catch(() => ['?'])).length > 0) return;
    await rm(dir, { recursive: true, force: true }).catch(() => undefined);
  }
}

async function swapIn(fresh: string, dir: string, kind: 'new' | 'replace'): Promise<void> {
  if (kind === 'new') {
    await rename(fresh, dir);
    return;
  }
  const old = besideOf(dir, 'old');
  await rename(dir, old);
  try {
    await rename(fresh, dir);
  } catch (error) {
    await rename(old, dir);
    throw error;
  }
  await rm(old, { recursive: true, force: true });
}

async function read(path: string, maxBytes: number): Promise<Outcome<Uint8Array>> {
  try {
    const handle = await open(path, 'r');
    try {
      const facts = await handle.stat();
      if (facts.isDirectory()) return diskTrouble.folderNotFile(path);
      // A pipe or a device may never end.
      if (!facts.isFile()) return diskTrouble.notOrdinary(path);
      if (facts.size > maxBytes)
        return diskTrouble.tooLarge(path, Math.ceil(facts.size / 1048576), Math.floor(maxBytes / 1048576));
      return done(new Uint8Array(await handle.readFile()));
    } finally {
      await handle.close();
    }
  } catch (error) {
    return troubleWith(path, error);
  }
}

async function write(path: string, bytes: Uint8Array): Promise<Outcome<void>> {
  try {
    const there = await stat(path).catch(() => null);
    if (there?.isDirectory()) return diskTrouble.folderNotFile(path);
    await writeWhole(path, bytes);
    return done(undefined);
  } catch (error) {
    const missing = (error as NodeJS.ErrnoException).code === 'ENOENT';
    if (missing) return diskTrouble.noFolder(path);
    return troubleWith(path, error);
  }
}

async function writeAll(to: string, files: ReadonlyMap<string, Uint8Array>): Promise<Outcome<void>> {
  const dir = resolve(to);
  const parent = dirname(dir);
  const kind = await mayReplace(dir);
  if (!kind.ok) return kind;
  let made: string | undefined;
  let fresh: string | undefined;
  const failed = async (error: unknown): Promise<Failure> => {
    if (fresh !== undefined) await rm(fresh, { recursive: true, force: true }).catch(() => undefined);
    await unmake(made, parent);
    return troubleWith(to, error);
  };
  try {
    made = await makeFolder(parent);
    await sweepLeftovers(parent);
    fresh = besideOf(dir, 'new');
    await makeFolder(fresh);
    for (const [name, bytes] of files) {
      if (basename(name) !== name || name === '..' || name === '.')
        throw new Error(`“${name}” is not a plain file name.`);
      await writeFlushed(join(fresh, name), bytes);
    }
    await flushFolder(fresh);
    await swapIn(fresh, dir, kind.value);
    await flushFolder(parent);
    return done(undefined);
  } catch (error) {
    return failed(error);
  }
}

/** Files on this machine. Every write is whole or not at all, and on the disk before it counts as done. */
export const nodeFiles = (): FileStore => ({ read, write, writeAll });

/** Whether `writeAll` could begin there, so that long work is not done for nothing. */
export const canWriteAll = async (dir: string): Promise<Outcome<void>> => {
  const kind = await mayReplace(resolve(dir));
  return kind.ok ? done(undefined) : kind;
};
