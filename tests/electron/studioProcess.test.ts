import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { BIN } from './runCli.ts';

const dirs: string[] = [];
afterAll(() => {
  for (const dir of dirs) rmSync(dir, { recursive: true, force: true });
});

/** The studio as a checkout starts it, once it told its address; `inner` is the process that serves it. */
async function started(): Promise<{ outer: ChildProcess; inner: number; address: string }> {
  const dir = mkdtempSync(join(tmpdir(), 'kickflat-studio-'));
  dirs.push(dir);
  const outer = spawn(process.execPath, [BIN, 'studio', '--browser', '--json'], {
    cwd: dir,
    env: { ...process.env, KICKFLAT_STATE: dir, DISPLAY: '', WAYLAND_DISPLAY: '' },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const address = await new Promise<string>((resolve, reject) => {
    let text = '';
    outer.stdout?.on('data', (chunk: Buffer) => {
      text += chunk.toString();
      const found = /"address":\s*"([^"#]+)/.exec(text);
      if (found) resolve(found[1] as string);
    });
    outer.once('exit', (code) => reject(new Error(`It ended with ${code}.`)));
  });
  const children = readFileSync(`/proc/${outer.pid}/task/${outer.pid}/children`, 'utf8').trim().split(' ');
  return { outer, inner: Number(children[0]), address };
}

const ended = (child: ChildProcess) => new Promise((resolve) => child.once('close', resolve));
const runs = (pid: number) => existsSync(`/proc/${pid}`);

describe.skipIf(process.platform !== 'linux')('the studio’s own process on Linux', () => {
  test('has one store of freed memory, and ends in order when the one that started it is stopped', async () => {
    const { outer, inner, address } = await started();
    expect(readFileSync(`/proc/${inner}/environ`, 'utf8').split('\0')).toContain('MALLOC_ARENA_MAX=1');
    expect((await fetch(address)).status).toBe(200);
    const end = ended(outer);
    outer.kill('SIGTERM');
    expect(await end).toBe(0);
    expect(runs(inner)).toBe(false);
  }, 240_000);

  test('ends as well when the one that started it is killed', async () => {
    const { outer, inner } = await started();
    expect(runs(inner)).toBe(true);
    outer.kill('SIGKILL');
    await expect.poll(() => runs(inner), { timeout: 20_000 }).toBe(false);
  }, 240_000);
});
