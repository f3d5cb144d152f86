import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { beforeAll, expect, test } from 'vitest';
// @ts-expect-error: a plain script
import { build } from '../../build/build.mjs';

const WHEN_TOLD = fileURLToPath(new URL('../../build/whenTold.mjs', import.meta.url));

beforeAll(() => build({ only: 'command' }), 120_000);

/** The process, what it says, and its status once it has ended. */
function started(...args: string[]) {
  const child = fork(WHEN_TOLD, args, { silent: true });
  const said = { text: '' };
  for (const stream of [child.stdout, child.stderr])
    stream?.on('data', (part) => {
      said.text += part;
    });
  const ended = new Promise<number | null>((resolve) => child.on('exit', resolve));
  return { child, said, ended };
}
const told = (child: ChildProcess) =>
  new Promise<unknown>((resolve) => {
    child.on('message', resolve);
    child.send('run');
  });

test('the command’s process says nothing before it is told to run, then runs the command and tells its end', async () => {
  const { child, said, ended } = started('calc', 'no-such-thing');
  await new Promise((resolve) => setTimeout(resolve, 1000));
  expect(said.text).toBe('');
  expect(child.exitCode).toBeNull();
  expect(await told(child)).toEqual({ status: 2 });
  expect(await ended).toBe(2);
  await expect.poll(() => said.text).toMatch(/^kickflat: .*no-such-thing/);
});

test('it ends, with nothing said, where the program that started it ends before', async () => {
  const { child, said, ended } = started('films', 'none.kickflat', '--out', 'none');
  child.disconnect();
  expect(await ended).toBe(0);
  expect(said.text).toBe('');
});
