import { spawn } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { BIN } from './runCli.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
/** Those that make what others take come first. `studio` stays open, and the calculators' own examples run elsewhere. */
const COMMANDS = [
  'new',
  'add',
  'check',
  'proof',
  'deck',
  'traps',
  'films',
  'press',
  'reprint',
  'shop',
  'calc',
];
/** A plain drawing under the demonstration's name: what is tried here is the command, not the art. */
const PLAIN =
  '<svg xmlns="http://www.w3.org/2000/svg" width="700mm" height="160mm" viewBox="0 0 700 160"><path d="M0 0h700v160H0z" fill="#1b2440"/><circle cx="350" cy="80" r="50" fill="#f2b632"/><path d="M500 40h90v60h-90z" fill="#e8613c"/></svg>';

let folder: string;

/** Pasted into a shell, with `kickflat` on the path as after `npm link`. */
function paste(line: string): Promise<{ status: number | null; said: string }> {
  return new Promise((resolve) => {
    const child = spawn('sh', ['-c', line], {
      cwd: folder,
      env: {
        ...process.env,
        PATH: `${join(folder, 'bin')}:${process.env['PATH']}`,
        KICKFLAT_STATE: join(folder, 'state'),
      },
    });
    let said = '';
    for (const stream of [child.stdout, child.stderr])
      stream.on('data', (chunk) => {
        said += chunk;
      });
    child.on('close', (status) => resolve({ status, said }));
  });
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'kickflat-help-'));
  for (const name of ['bin', 'out', 'build/demo']) mkdirSync(join(folder, name), { recursive: true });
  symlinkSync(BIN, join(folder, 'bin', 'kickflat'));
  cpSync(join(ROOT, 'build/demo'), join(folder, 'build/demo'), { recursive: true });
  writeFileSync(join(folder, 'plain.svg'), PLAIN);
  const made = await paste(
    "kickflat new --art plain.svg --inks '#f2b632=Sun yellow,#e8613c=Coral,#1b2440=Night blue' --veneer teal --out out/night-heron.kickflat",
  );
  expect(made).toMatchObject({ status: 0 });
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test.each(COMMANDS)(
  'the example in the help of “%s” works when it is pasted',
  async (command) => {
    const help = await paste(`kickflat ${command} --help`);
    const examples = [...help.said.matchAll(/^ {2}(kickflat .+(?:\n {4,}\S.*)*)$/gm)].map(
      ([, line]) => line!,
    );
    expect(examples.length).toBeGreaterThan(0);
    const ran = await paste(examples.at(-1)!.replace(/\s*\n\s*/g, ' '));
    expect(ran.said).not.toMatch(/\n\s+at |inside Kickflat/);
    // The check ends with 1 where it finds errors; that is its answer.
    expect(ran.status === 0 || (command === 'check' && ran.status === 1), ran.said).toBe(true);
  },
  180_000,
);
