import { execFileSync, spawn } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import {
  backupOf,
  lockJob,
  nodeFiles,
  recentJobs,
  sweepLeftovers,
  unsavedWork,
  writeJobFile,
} from '../../electron/host/index.ts';

const files = nodeFiles();
const text = (s: string) => new TextEncoder().encode(s);
const root = process.getuid?.() === 0;
let dir: string;
beforeEach(() => {
  dir = mkdtempSync(join(tmpdir(), 'kickflat-files-'));
});
afterEach(() => {
  rmSync(dir, { recursive: true, force: true });
});

/** Every name below `dir`, hidden ones too. */
const all = (at = dir) => readdirSync(at, { recursive: true }).map(String).sort();
const failure = (outcome: { ok: boolean; kind?: string; reason?: string; mend?: string }) => {
  expect(outcome.ok).toBe(false);
  expect(outcome.reason).toMatch(/\.$/);
  expect(outcome.mend).toMatch(/\.$/);
  return `${outcome.kind}: ${outcome.reason}`;
};

describe('one file', () => {
  test('is written over an old one, through a link, and read back within a limit', async () => {
    const path = join(dir, 'a.kickflat');
    expect((await files.write(path, text('old'))).ok).toBe(true);
    symlinkSync(path, join(dir, 'link'));
    expect((await files.write(join(dir, 'link'), text('new'))).ok).toBe(true);
    expect(readFileSync(path, 'utf8')).toBe('new');
    expect(all()).toEqual(['a.kickflat', 'link']);
    const read = await files.read(path, 3);
    expect(read.ok && Buffer.from(read.value).toString()).toBe('new');
    expect(failure(await files.read(path, 2))).toContain('input');
  });

  test('what is missing, a folder, a pipe or under a file is a sentence of kind file', async () => {
    writeFileSync(join(dir, 'f'), 'x');
    expect(failure(await files.read(join(dir, 'none'), 9))).toMatch(/^file: .*does not exist/);
    expect(failure(await files.read(dir, 9))).toMatch(/^file: .*is a folder/);
    expect(failure(await files.read(join(dir, 'f', 'g'), 9))).toMatch(/^file: .*not a folder/);
    expect(failure(await files.write(dir, text('x')))).toMatch(/^file: .*is a folder/);
    expect(failure(await files.write(join(dir, 'no', 'f'), text('x')))).toMatch(/^file: .*does not exist/);
    if (existsSync('/dev/zero'))
      expect(failure(await files.read('/dev/zero', 9))).toMatch(/not an ordinary file/);
    expect(all()).toEqual(['f']);
  });

  test.skipIf(root)('a folder that may not be written to is a sentence', async () => {
    chmodSync(dir, 0o500);
    expect(failure(await files.write(join(dir, 'f'), text('x')))).toMatch(/^file: .*user/);
    chmodSync(dir, 0o700);
  });
});

describe('a folder of files', () => {
  const film = (s: string) =>
    new Map([
      ['films.json', text(JSON.stringify({ version: 1, job: s }))],
      ['films.pdf', text(s)],
    ]);

  test('appears whole, with the folders above it, and leaves nothing else', async () => {
    expect((await files.writeAll(join(dir, 'a', 'b', 'films'), film('one'))).ok).toBe(true);
    expect(all()).toEqual(['a', 'a/b', 'a/b/films', 'a/b/films/films.json', 'a/b/films/films.pdf']);
  });

  test('replaces our own earlier films, an empty folder, and nothing else', async () => {
    const out = join(dir, 'films');
    mkdirSync(out);
    expect((await files.writeAll(out, film('one'))).ok).toBe(true);
    writeFileSync(join(out, 'mask-bottom-1-white.png'), 'old');
    expect((await files.writeAll(out, film('two'))).ok).toBe(true);
    expect(readdirSync(out).sort()).toEqual(['films.json', 'films.pdf']);
    expect(readFileSync(join(out, 'films.pdf'), 'utf8')).toBe('two');
    writeFileSync(join(out, 'notes.txt'), 'mine');
    expect(failure(await files.writeAll(out, film('three')))).toMatch(/^file: .*notes\.txt/);
    expect(readFileSync(join(out, 'films.pdf'), 'utf8')).toBe('two');
    expect(readFileSync(join(out, 'notes.txt'), 'utf8')).toBe('mine');
    expect(all()).not.toContainEqual(expect.stringContaining('kickflat-'));
  });

  test('a films.pdf without our manifest is somebody else’s', async () => {
    mkdirSync(join(dir, 'films'));
    writeFileSync(join(dir, 'films', 'films.pdf'), 'theirs');
    expect(failure(await files.writeAll(join(dir, 'films'), film('x')))).toContain('films.pdf');
    writeFileSync(join(dir, 'films', 'films.json'), '{"version":7}');
    expect(failure(await files.writeAll(join(dir, 'films'), film('x')))).toContain('films.json');
    expect(readFileSync(join(dir, 'films', 'films.pdf'), 'utf8')).toBe('theirs');
  });

  test('a file where a folder is wanted, and names that lead elsewhere, are refused', async () => {
    writeFileSync(join(dir, 'films'), 'x');
    expect(failure(await files.writeAll(join(dir, 'films'), film('x')))).toContain('is a file');
    expect(failure(await files.writeAll(join(dir, 'films', 'in'), film('x')))).toMatch(/^file/);
    await expect(files.writeAll(join(dir, 'out'), new Map([['../escape', text('x')]]))).rejects.toThrow(
      'plain file name',
    );
    expect(existsSync(join(dir, 'escape'))).toBe(false);
    expect(all()).toEqual(['films']);
  });

  test.skipIf(!root || process.platform !== 'linux')(
    'a full disk leaves what was there, and says so',
    async () => {
      const disk = join(dir, 'disk');
      mkdirSync(disk);
      try {
        execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=256k', 'tmpfs', disk], { stdio: 'ignore' });
      } catch {
        return; // Inside some containers even root may not mount.
      }
      try {
        expect((await files.writeAll(join(disk, 'films'), film('one'))).ok).toBe(true);
        const big = new Map([...film('two'), ['assembly.pdf', new Uint8Array(400_000)] as const]);
        expect(failure(await files.writeAll(join(disk, 'films'), big))).toMatch(/^file: .*full/);
        expect(failure(await files.write(join(disk, 'films', 'films.pdf'), new Uint8Array(400_000)))).toMatch(
          /full/,
        );
        expect(readFileSync(join(disk, 'films', 'films.pdf'), 'utf8')).toBe('one');
        expect(all(disk)).toEqual(['films', 'films/films.json', 'films/films.pdf']);
      } finally {
        execFileSync('umount', [disk]);
      }
    },
  );
});

describe('a program that is killed', () => {
  /** Writes a job and a folder of films over and over; every file holds one repeated letter, and films.json names it. */
  const WRITER = `
    import { nodeFiles, writeJobFile } from './electron/host/index.ts';
    const files = nodeFiles();
    const dir = process.argv[2];
    const fill = (n) => new Uint8Array(200_000).fill(97 + (n % 26));
    process.stdout.write('ready');
    for (let n = 0; ; n++) {
      await writeJobFile(files, dir + '/job.kickflat', fill(n));
      const manifest = new TextEncoder().encode(JSON.stringify({ version: 1, job: String.fromCharCode(97 + (n % 26)) }));
      await files.writeAll(dir + '/films', new Map([['films.pdf', fill(n)], ['films.json', manifest]]));
    }`;

  test('at 60 random moments leaves the old or the new, never a half, seed 11', async () => {
    const script = join(dir, 'writer.mjs');
    await build({
      stdin: { contents: WRITER, resolveDir: new URL('../..', import.meta.url).pathname, loader: 'ts' },
      bundle: true,
      platform: 'node',
      format: 'esm',
      external: ['sharp'],
      outfile: script,
      absWorkingDir: new URL('../..', import.meta.url).pathname,
      banner: {
        js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);",
      },
      plugins: [
        {
          // The writer needs no pictures; sharp is found only from the project's own folder.
          name: 'no-sharp',
          setup: (b) =>
            void b.onLoad({ filter: /sharpCodec\.ts$/ }, () => ({
              contents: 'export const sharpCodec = () => {}',
            })),
        },
      ],
    });
    const whole = (bytes: Buffer) => bytes.length === 200_000 && bytes.every((b) => b === bytes[0]);
    const work = join(dir, 'work');
    mkdirSync(work);
    let seed = 11;
    let bothSeen = 0;
    for (let round = 0; round < 60; round++) {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      const child = spawn(process.execPath, [script, work], { stdio: ['ignore', 'pipe', 'inherit'] });
      await new Promise<void>((resolve) => child.stdout.once('data', () => resolve()));
      await new Promise((resolve) => setTimeout(resolve, (seed / 2 ** 32) * 30));
      child.kill('SIGKILL');
      await new Promise((resolve) => child.once('close', resolve));
      const job = join(work, 'job.kickflat');
      if (existsSync(job)) expect(whole(readFileSync(job))).toBe(true);
      if (existsSync(backupOf(job))) expect(whole(readFileSync(backupOf(job)))).toBe(true);
      await sweepLeftovers(work);
      expect(readdirSync(work).filter((name) => name.startsWith('.'))).toEqual([]);
      const films = join(work, 'films');
      if (!existsSync(films)) continue;
      expect(readdirSync(films).sort()).toEqual(['films.json', 'films.pdf']);
      const pdf = readFileSync(join(films, 'films.pdf'));
      expect(whole(pdf)).toBe(true);
      const manifest = JSON.parse(readFileSync(join(films, 'films.json'), 'utf8')) as { job: string };
      expect(manifest.job).toBe(String.fromCharCode(pdf[0] as number));
      bothSeen++;
    }
    expect(bothSeen, 'most rounds got as far as films').toBeGreaterThan(20);
  });
});

describe('a job', () => {
  test('keeps the copy before the last as its backup', async () => {
    const path = join(dir, 'a.kickflat');
    for (const version of ['one', 'two', 'three'])
      expect((await writeJobFile(files, path, text(version))).ok).toBe(true);
    expect(readFileSync(path, 'utf8')).toBe('three');
    expect(readFileSync(backupOf(path), 'utf8')).toBe('two');
  });

  test('is held by one program; a dead one’s lock is taken over', async () => {
    const path = join(dir, 'a.kickflat');
    const lock = join(dir, '.a.kickflat.lock');
    const { hostname } = await import('node:os');
    // Process 1 always runs.
    writeFileSync(lock, JSON.stringify({ pid: 1, host: hostname() }));
    expect(failure(await lockJob(path))).toMatch(/^file: .*another program/);
    writeFileSync(lock, JSON.stringify({ pid: 2 ** 22 + 1, host: hostname() }));
    const mine = await lockJob(path);
    expect(mine.ok).toBe(true);
    if (mine.ok) await mine.value.release();
    expect(existsSync(lock)).toBe(false);
  });
});

describe('what a session remembers', () => {
  test('recent jobs: newest first, each once, at most twelve; a damaged list is an empty one', async () => {
    const recent = recentJobs(join(dir, 'state'));
    for (let n = 0; n < 15; n++) await recent.add(`/jobs/${n % 14}.kickflat`, `2020-01-01T00:00:${n}Z`);
    const list = await recent.list();
    expect(list).toHaveLength(12);
    expect(list[0]?.path).toBe('/jobs/0.kickflat');
    expect(new Set(list.map((r) => r.path)).size).toBe(12);
    writeFileSync(join(dir, 'state', 'recent.json'), '{"a"');
    expect(await recent.list()).toEqual([]);
  });

  test('unsaved work of a dead program is found once; a live one finds its own alone; saved work leaves nothing', async () => {
    const dead = unsavedWork(dir, 2 ** 22 + 1);
    await dead.keep(text('work'), 'Night Heron');
    const found = await unsavedWork(dir).recover();
    expect(found && { name: found.name, text: Buffer.from(found.bytes).toString() }).toEqual({
      name: 'Night Heron',
      text: 'work',
    });
    expect(await unsavedWork(dir).recover()).toBeNull();
    const live = unsavedWork(dir);
    await live.keep(text('a'), 'a/../b');
    await live.keep(text('b'), 'other');
    const own = await live.recover();
    expect(own && Buffer.from(own.bytes).toString()).toBe('b');
    await live.keep(null, 'other');
    expect(all().filter((name) => !name.includes('Night Heron'))).toEqual([]);
  });

  test('where unsaved work can not be kept, the disk says why, and what was kept before stays', async () => {
    const own = unsavedWork(dir);
    expect((await own.keep(text('a'), 'Night Heron')).ok).toBe(true);
    writeFileSync(join(dir, 'file'), 'no folder');
    const kept = await unsavedWork(join(dir, 'file')).keep(text('b'), 'Night Heron');
    expect(kept).toMatchObject({ ok: false, kind: 'file', reason: expect.stringMatching(/is not a folder/) });
    expect(Buffer.from((await own.recover())?.bytes ?? []).toString()).toBe('a');
  });

  test('unsaved work is written in the order it was asked for: what was forgotten last stays forgotten', async () => {
    const own = unsavedWork(dir);
    await Promise.all([
      own.keep(text('a'.repeat(4e6)), 'Night Heron'),
      own.keep(text('b'), 'Heron'),
      own.keep(null, ''),
    ]);
    expect(all()).toEqual([]);
  });

  test('found work stays until its job is saved, whatever else is done meanwhile, and is found again if it is not', async () => {
    await unsavedWork(dir, 2 ** 22 + 1).keep(text('found'), 'Night Heron');
    const next = unsavedWork(dir);
    expect((await next.recover())?.found).toBe(true);
    // The page that was offered it is loaded again, then works on the file itself and on another job, and saves that.
    expect(Buffer.from((await next.recover())?.bytes ?? []).toString()).toBe('found');
    await next.keep(text('edited'), 'Night Heron');
    await next.keep(text('other'), 'Little Wave');
    await next.keep(null, 'Little Wave');
    expect(all()).toHaveLength(1);
    expect(Buffer.from((await next.recover())?.bytes ?? []).toString()).toBe('found');
    await next.keep(null, 'Night Heron');
    expect(all()).toEqual([]);
  });

  test('found work that was offered and not opened is offered again at the next start, and at the one after', async () => {
    await unsavedWork(dir, 2 ** 22 + 1).keep(text('found'), 'Night Heron');
    for (const pid of [2 ** 22 + 2, 2 ** 22 + 3]) {
      // A program starts, is offered it, works on something else, saves that and ends.
      const program = unsavedWork(dir, pid);
      expect((await program.recover())?.name).toBe('Night Heron');
      await program.keep(text('other'), 'Little Wave');
      await program.keep(null, 'Little Wave');
    }
    const last = await unsavedWork(dir).recover();
    expect(last && [last.name, last.found, Buffer.from(last.bytes).toString()]).toEqual([
      'Night Heron',
      true,
      'found',
    ]);
    expect(all()).toHaveLength(1);
  });
});
