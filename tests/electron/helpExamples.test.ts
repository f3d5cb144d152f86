import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { allCommands, calledAs, commandHelp } from '../../electron/commands/index.ts';
import { BIN, TERMINAL } from './runCli.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
/** A plain drawing under the demonstration's name: what is tried here is the command, not the art. */
const DRAWING =
  '<svg xmlns="http://www.w3.org/2000/svg" width="700mm" height="160mm" viewBox="0 0 700 160"><path d="M0 0h700v160H0z" fill="#1b2440"/><circle cx="350" cy="80" r="50" fill="#f2b632"/><path d="M500 40h90v60h-90z" fill="#e8613c"/></svg>';

const commands = await allCommands();

let folder: string;

/** Pasted into a shell, with `kickflat` on the path as after `npm link`. */
function shell(line: string): ChildProcessWithoutNullStreams {
  return spawn('sh', ['-c', line], {
    cwd: folder,
    env: {
      ...TERMINAL,
      PATH: `${join(folder, 'bin')}:${process.env['PATH']}`,
      KICKFLAT_STATE: join(folder, 'state'),
    },
  });
}

/** What it said until it ended, or until `enough` was said: then it is stopped as by Ctrl-C. */
function paste(line: string, enough?: RegExp): Promise<{ status: number | null; said: string }> {
  return new Promise((resolve) => {
    const child = shell(`exec ${line}`);
    let said = '';
    for (const stream of [child.stdout, child.stderr])
      stream.on('data', (chunk) => {
        said += chunk;
        if (enough?.test(said)) child.kill('SIGINT');
      });
    child.on('close', (status) => resolve({ status, said }));
  });
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'kickflat-help-'));
  for (const name of ['bin', 'out', 'build/demo']) mkdirSync(join(folder, name), { recursive: true });
  symlinkSync(BIN, join(folder, 'bin', 'kickflat'));
  cpSync(join(ROOT, 'build/demo'), join(folder, 'build/demo'), { recursive: true });
  writeFileSync(join(folder, 'plain.svg'), DRAWING);
  const made = await paste(
    "kickflat new --art plain.svg --inks '#f2b632=Sun yellow,#e8613c=Coral,#1b2440=Night blue' --veneer teal --out out/night-heron.kickflat",
  );
  expect(made).toMatchObject({ status: 0 });
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test.each(commands.map(({ spec }) => spec))(
  'the examples in the help of $name work when they are pasted',
  async ({ name, examples }) => {
    const help = await paste(`kickflat ${name} --help`);
    const shown = help.said
      .split('\n')
      .slice(help.said.split('\n').findLastIndex((l) => /^Examples?, /.test(l)));
    expect(shown.slice(1, -1).map((line) => line.trim())).toEqual(examples);
    for (const example of examples) {
      const ran = await paste(example, name === 'studio' ? /http:\/\/127\.0\.0\.1:\d+/ : undefined);
      expect(ran.said).not.toMatch(/\n\s+at |inside Kickflat/);
      // The check ends with 1 where it finds errors; that is its answer.
      expect(ran.status === 0 || (name === 'check' && ran.status === 1), ran.said).toBe(true);
    }
  },
  240_000,
);

test('called through npx, the help says so', () => {
  const [spec] = commands.map((one) => one.spec);
  expect(commandHelp(spec!, calledAs({ npm_lifecycle_event: 'npx' }))).toContain(
    '\n  npx kickflat new --art ',
  );
  expect(commandHelp(spec!, calledAs({}))).toContain('\n  kickflat new --art ');
});
