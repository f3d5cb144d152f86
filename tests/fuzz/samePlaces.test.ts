import { fork } from 'node:child_process';
import { rmSync } from 'node:fs';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { bundled, WORKER } from './bundle.ts';
import type { Summed } from './sumProcess.ts';

let entry: string;
beforeAll(async () => {
  entry = await bundled('sumProcess');
});
afterAll(() => rmSync(entry, { force: true }));

/** Films made in a process that believes to be elsewhere. */
function made(place: string, zone: string, threads: number): Promise<Summed> {
  return new Promise((resolve, reject) => {
    const child = fork(entry, [WORKER, String(threads)], {
      env: { ...process.env, LC_ALL: place, LANG: place, TZ: zone },
      execArgv: [],
      stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
    });
    let [told, stderr]: [Summed | null, string] = [null, ''];
    child.on('message', (message: Summed) => {
      told = message;
    });
    child.stderr?.on('data', (text) => {
      stderr += text;
    });
    child.once('close', () => (told ? resolve(told) : reject(new Error(stderr))));
  });
}

test('the same job gives the same bytes in other places and time zones, with 1, 2 and 4 threads, and again', async () => {
  const here = await made('C', 'UTC', 1);
  // Turkish has an i of its own, German a decimal comma, Arabic its own digits; none of the zones is whole hours off.
  const others = [
    await made('tr_TR.UTF-8', 'Pacific/Chatham', 2),
    await made('de_DE.UTF-8', 'America/St_Johns', 4),
    await made('ar_EG.UTF-8', 'Australia/Eucla', 1),
    await made('C', 'UTC', 1),
  ];
  for (const { films } of others) expect(films).toBe(here.films);
  // They did believe to be there: else nothing was tried.
  expect(new Set([here, ...others].map((one) => one.written)).size).toBe(4);
  expect(others.map((one) => one.zone)).toEqual([
    'Pacific/Chatham',
    'America/St_Johns',
    'Australia/Eucla',
    'UTC',
  ]);
}, 600_000);
