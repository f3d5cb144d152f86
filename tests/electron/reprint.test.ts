import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { packJob, unpackJob } from '../../core/job/index.ts';
import { newRun } from '../core/press/newRun.ts';
import { expectRefusal, kickflat } from './runCli.ts';

let dir: string;
beforeAll(async () => {
  dir = mkdtempSync(join(tmpdir(), 'kickflat-reprint-'));
  writeFileSync(join(dir, 'run.kickflat'), packJob({ job: newRun(), art: new Map() }));
  await kickflat(dir, ['--help']);
}, 120_000);
afterAll(() => rmSync(dir, { recursive: true, force: true }));

test('a reprint is a new file in a new colourway; the old one stays as it is', async () => {
  const before = readFileSync(join(dir, 'run.kickflat'));
  const ran = await kickflat(dir, [
    'reprint',
    'run.kickflat',
    '--new-colourway',
    'Dusk',
    '--ink',
    'Coral=#8A5FB0=Violet',
    '--out',
    'dusk.kickflat',
  ]);
  expect([ran.status, ran.err]).toEqual([0, '']);
  expect(ran.out).toMatch(/its films are those you have/);
  expect(ran.out).toMatch(/12 decks, Natural maple, Dusk \(start with 13\)/);
  const made = unpackJob(new Uint8Array(readFileSync(join(dir, 'dusk.kickflat'))));
  if (!made.ok) throw new Error(made.reason);
  expect(made.value.job.colourways.at(-1)).toEqual({
    id: 'dusk',
    name: 'Dusk',
    colours: { coral: { name: 'Violet', hex: '#8a5fb0' } },
  });
  expect(readFileSync(join(dir, 'run.kickflat')).equals(before)).toBe(true);
  expectRefusal(
    await kickflat(dir, ['reprint', 'run.kickflat', '--out', 'dusk.kickflat']),
    3,
    /there already/,
  );
}, 60_000);

test('what makes no sense is refused in a sentence', async () => {
  const run = (...args: string[]) =>
    kickflat(dir, ['reprint', 'run.kickflat', '--out', 'x.kickflat', ...args]);
  expectRefusal(await run('--colourway', 'Gone'), 2, /no colourway “Gone”.*Lilac/);
  expectRefusal(await run('--new-colourway', 'D', '--ink', 'Teal=#112233'), 2, /no ink “Teal”.*coral, key/);
  expectRefusal(await run('--new-colourway', 'D', '--ink', 'coral=red'), 2, /says no colour/);
  expectRefusal(await run('--new-colourway', 'D'), 2, /both its name and its inks/);
}, 60_000);
