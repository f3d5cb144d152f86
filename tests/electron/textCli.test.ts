import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { hashOf, unpackJob } from '../../core/job/index.ts';
import { expectRefusal, kickflat } from './runCli.ts';

const DEJAVU = '/usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf';
let dir: string;
beforeAll(async () => {
  dir = mkdtempSync(join(tmpdir(), 'kickflat-words-'));
  await kickflat(dir, ['--help']);
}, 240_000);
afterAll(() => rmSync(dir, { recursive: true, force: true }));

const jobIn = (name: string) => {
  const file = unpackJob(new Uint8Array(readFileSync(join(dir, name))));
  if (!file.ok) throw new Error(file.reason);
  return file.value;
};

test('words make a job of their own, with their colour as its ink, and can be added to it in a font of one’s own', async () => {
  const made = await kickflat(dir, [
    ...['new', '--text', 'NIGHT\\nHERON', '--font', 'anton', '--text-height', '1 in', '--tracking', '0.5mm'],
    ...['--text-colour', '#b23a2e', '--out', 'words.kickflat'],
  ]);
  expect(made.err).toBe('');
  expect(made.status).toBe(0);
  const first = jobIn('words.kickflat').job.faces.bottom;
  expect(first.art[0]!.text).toMatchObject({
    words: 'NIGHT\nHERON',
    font: 'anton',
    fontName: 'Anton',
    cap: 25.4,
    tracking: 0.5,
    align: 'centre',
  });
  // Two lines, 1.5 heights of a capital from one baseline to the next.
  expect(first.art[0]!.height).toBeGreaterThan(2.4 * 25.4);
  expect(first.inks).toHaveLength(1);
  if (!existsSync(DEJAVU)) return;
  const added = await kickflat(dir, [
    'add',
    'words.kickflat',
    '--face',
    'bottom',
    '--text',
    'no. 8',
    '--font',
    DEJAVU,
    '--arc',
    '-200mm',
  ]);
  expect(added.err).toBe('');
  const { job, extra } = jobIn('words.kickflat');
  const [, words] = job.faces.bottom.art;
  const hash = hashOf(new Uint8Array(readFileSync(DEJAVU)));
  expect(words!.text).toMatchObject({ font: `own-${hash}`, fontName: 'DejaVu Sans', arc: -200 });
  // It is set in the ink that is there, and the font travels with the job.
  expect(words!.text!.hex).toBe(first.inks[0]!.hex);
  expect(hashOf(extra.get(`fonts/${hash}`)!)).toBe(hash);
  const films = await kickflat(dir, ['films', 'words.kickflat', '--out', 'films', '--dpi', '300']);
  expect(films.err.replace(/^.*\r?$/gm, '').trim()).toBe('');
  expect(films.status).toBe(0);
}, 240_000);

test('what can not be set is refused in one line and writes nothing', async () => {
  writeFileSync(join(dir, 'not.ttf'), 'no font');
  const refuse = async (args: readonly string[], reason: RegExp) =>
    expectRefusal(await kickflat(dir, ['new', '--out', 'never.kickflat', ...args]), 2, reason);
  await refuse(['--text', 'HERON', '--font', 'antn'], /There is no font “antn”\. Did you mean anton\?/);
  await refuse(['--text', 'HERON', '--font', 'not.ttf'], /“not\.ttf” can not be read as a font/);
  await refuse(['--text', '漢'], /This font has no “漢”/);
  await refuse(['--text', 'HERON', '--arc', '9mm'], /too small for these words/);
  await refuse(['--arc', '90mm'], /No art was given|--arc is given without --text/);
  expect(existsSync(join(dir, 'never.kickflat'))).toBe(false);
}, 240_000);
