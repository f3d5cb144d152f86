import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { deckTemplate } from '../../core/deck/index.ts';
import { newJob, packJob, unpackJob } from '../../core/job/index.ts';
import type { ImageCodec, Workers } from '../../core/ports/index.ts';
import { nodeFiles } from '../../electron/host/index.ts';
import { type ShellHost, shellHost } from '../../electron/shellHost.ts';

let dir: string;
let path: string;
beforeEach(() => {
  dir = mkdtempSync(join(tmpdir(), 'kickflat-together-'));
  path = join(dir, 'run.kickflat');
  writeFileSync(path, jobNamed('as it was'));
});
afterEach(() => rmSync(dir, { recursive: true, force: true }));

const jobNamed = (name: string) =>
  packJob({ job: newJob({ name, deck: deckTemplate('popsicle-8.25')! }), art: new Map() });
const nameOnDisk = () => {
  const file = unpackJob(new Uint8Array(readFileSync(path)));
  return file.ok ? file.value.job.name : file.reason;
};
const host = (): ShellHost =>
  shellHost({
    files: nodeFiles(),
    codec: {} as ImageCodec,
    workers: () => ({}) as Workers,
    state: join(dir, 'state'),
    demo: dir,
    version: 'test',
    now: () => 0,
    given: null,
  });
const opened = async (shell: ShellHost, tab?: string) => {
  const job = await shell.openPath(path, tab);
  if (!job.ok) throw new Error(job.reason);
  return job.value.handle!;
};

describe('a job that is open twice', () => {
  test('in two tabs of one program: the first to save wins, the second is told and overwrites nothing', async () => {
    const shell = host();
    const handle = await opened(shell, 'a');
    expect(await opened(shell, 'b')).toBe(handle);
    expect((await shell.saveHandle(jobNamed('by a'), handle, 'a')).ok).toBe(true);
    const second = await shell.saveHandle(jobNamed('by b'), handle, 'b');
    expect(second.ok ? '' : second.reason).toMatch(/^Another window or program has saved this job/);
    expect(nameOnDisk()).toBe('by a');
    // The first goes on as before, and the second may once it has seen the other's work.
    expect((await shell.saveHandle(jobNamed('by a again'), handle, 'a')).ok).toBe(true);
    await opened(shell, 'b');
    expect((await shell.saveHandle(jobNamed('by b'), handle, 'b')).ok).toBe(true);
    expect(nameOnDisk()).toBe('by b');
    await shell.close();
  });

  test('in two windows, each with a host of its own, as in Electron', async () => {
    const [one, two] = [host(), host()];
    const handles = [await opened(one), await opened(two)] as const;
    expect((await one.saveHandle(jobNamed('one'), handles[0])).ok).toBe(true);
    expect((await two.saveHandle(jobNamed('two'), handles[1])).ok).toBe(false);
    expect(nameOnDisk()).toBe('one');
    await one.close();
    await two.close();
  });

  test('saved by both at the same moment: exactly one goes through', async () => {
    const [one, two] = [host(), host()];
    const handles = [await opened(one), await opened(two)] as const;
    const made = await Promise.all([
      one.saveHandle(jobNamed('one'), handles[0]),
      two.saveHandle(jobNamed('two'), handles[1]),
    ]);
    expect(made.map((m) => m.ok)).toEqual([true, false]);
    expect(nameOnDisk()).toBe('one');
    await one.close();
    await two.close();
  });

  test('changed on disk by something else, as the command line does: it is left as it is', async () => {
    const shell = host();
    const handle = await opened(shell);
    writeFileSync(path, jobNamed('by the command line'));
    expect((await shell.saveHandle(jobNamed('by the window'), handle)).ok).toBe(false);
    expect(nameOnDisk()).toBe('by the command line');
    // A path the user picks in a dialog is theirs to replace.
    expect((await shell.savePath(jobNamed('on purpose'), path)).ok).toBe(true);
    expect(nameOnDisk()).toBe('on purpose');
    expect((await shell.saveHandle(jobNamed('and on'), handle)).ok).toBe(true);
    await shell.close();
  });

  test('a file that is gone meanwhile is written anew', async () => {
    const shell = host();
    const handle = await opened(shell);
    rmSync(path);
    expect((await shell.saveHandle(jobNamed('back'), handle)).ok).toBe(true);
    expect(nameOnDisk()).toBe('back');
    await shell.close();
  });
});
