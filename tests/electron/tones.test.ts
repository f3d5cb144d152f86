import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { unpackJob } from '../../core/job/index.ts';
import { readPatches } from '../../electron/commands/tones.ts';
import { expectRefusal, kickflat } from './runCli.ts';

let dir: string;
beforeAll(async () => {
  dir = mkdtempSync(join(tmpdir(), 'kickflat-tones-'));
  writeFileSync(
    join(dir, 'art.svg'),
    '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="60mm" viewBox="0 0 100 60"><defs><linearGradient id="g"><stop stop-color="#1b2440"/><stop offset="1" stop-color="#f2b632"/></linearGradient></defs><rect width="100" height="60" fill="url(#g)"/></svg>',
  );
  const made = await run(
    ...['new', '--out', 'a.kickflat', '--deck', 'popsicle-8.25', '--art', 'art.svg'],
    ...['--inks', '2', '--method', 'halftone'],
  );
  expect(made.status, made.err).toBe(0);
}, 120_000);
afterAll(() => rmSync(dir, { recursive: true, force: true }));
const run = (...args: string[]) => kickflat(dir, args);
const jobAt = async () => {
  const read = await unpackJob(readFileSync(join(dir, 'a.kickflat')));
  if (!read.ok) throw new Error(read.reason);
  return read.value.job;
};

test('measured patches go into the job, and the films then hold less, so that the tone asked for is printed', async () => {
  const ran = await run('tones', 'a.kickflat', '--printed', '50=66,25=38,75=88', '--json');
  expect(ran.status, ran.err).toBe(0);
  const said = JSON.parse(ran.out);
  const patches = [
    { film: 0.25, printed: 0.38 },
    { film: 0.5, printed: 0.66 },
    { film: 0.75, printed: 0.88 },
  ];
  const job = await jobAt();
  expect(job.faces[said.face as 'bottom'].halftone?.gain?.patches).toEqual(patches);
  const at = (asked: number) => said.tones.find((t: { asked: number }) => t.asked === asked);
  expect(at(50).prints).toBeCloseTo(66, 5);
  // What prints 38 % is a film of 25 %, so a film for 40 % holds a little more than that.
  expect(at(40).film).toBeGreaterThan(25);
  expect(at(40).film).toBeLessThan(28);
  expect((await run('tones', 'a.kickflat')).out).toContain('3 measured patches');
  expect((await run('tones', 'a.kickflat', '--none')).status).toBe(0);
  expect((await jobAt()).faces[said.face as 'bottom'].halftone?.gain?.patches).toEqual([]);
}, 120_000);

test('what is no reading is refused in a sentence, and the job stays as it was', async () => {
  const before = readFileSync(join(dir, 'a.kickflat'));
  expectRefusal(await run('tones', 'a.kickflat', '--printed', '25=60,50=40'), 2, /lighter than the thinner/);
  expect(readFileSync(join(dir, 'a.kickflat')).equals(before)).toBe(true);
  for (const text of ['', '50', '50=', '50=120', '130=20', '50=60,50=61', 'a=b', '50:60'])
    expect(readPatches(text).ok, text).toBe(false);
  expect(readPatches(' 50 % = 66.5% , 100=100')).toMatchObject({
    ok: true,
    value: [
      { film: 0.5, printed: 0.665 },
      { film: 1, printed: 1 },
    ],
  });
}, 120_000);
