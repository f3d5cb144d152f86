import { spawn } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect } from 'vitest';

/** The command line as a checkout runs it. */
export const BIN = fileURLToPath(new URL('../../build/kickflat.mjs', import.meta.url));

/** A terminal without a display; the tests themselves may have been started through npx, which the help would tell of. */
export const TERMINAL = { ...process.env, DISPLAY: '', WAYLAND_DISPLAY: '', npm_lifecycle_event: '' };

export interface Ran {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
  readonly ms: number;
  /** Largest memory the program had, bytes. */
  readonly memory: number;
}

/** Notes the program's peak memory on its third pipe when it ends. */
const WATCH =
  "import { writeSync } from 'node:fs'; process.on('exit', () => writeSync(3, String(process.resourceUsage().maxRSS)));";

/** Runs the command line as a user would, in `cwd`. */
export function kickflat(
  cwd: string,
  args: readonly string[],
  env: Readonly<Record<string, string>> = {},
): Promise<Ran> {
  const watch = join(cwd, '.watch.mjs');
  writeFileSync(watch, WATCH);
  const started = Date.now();
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, ['--import', watch, BIN, ...args], {
      cwd,
      env: { ...TERMINAL, KICKFLAT_STATE: join(cwd, 'state'), ...env },
      stdio: ['ignore', 'pipe', 'pipe', 'pipe'],
    });
    const texts = ['', '', '', ''];
    for (const fd of [1, 2, 3])
      child.stdio[fd]?.on('data', (chunk: Buffer) => {
        texts[fd] += chunk.toString();
      });
    child.on('error', reject);
    child.on('close', (status) =>
      resolve({
        status,
        out: texts[1] as string,
        err: texts[2] as string,
        ms: Date.now() - started,
        memory: Number(texts[3]) * 1024,
      }),
    );
  });
}

/** A failure as CLI.md promises it: the status, one line with the reason and a mend, nothing on standard output. */
export function expectRefusal(ran: Ran, status: 2 | 3, reason: RegExp): void {
  expect(ran.err).toMatch(/^kickflat: [^\n]+\.\s*[^\n]*[.?!]\n$/);
  expect(ran.err).toMatch(reason);
  expect(ran.err).not.toMatch(/\n\s+at |inside Kickflat/);
  expect(ran.out).toBe('');
  expect(ran.status).toBe(status);
  expect(ran.ms).toBeLessThan(10_000);
}
