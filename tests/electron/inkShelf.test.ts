import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { unpackJob } from '../../core/job/index.ts';
import { readPaletteInks } from '../../core/shop/index.ts';
import { expectRefusal, kickflat } from './runCli.ts';

let dir: string;
beforeAll(async () => {
  dir = mkdtempSync(join(tmpdir(), 'kickflat-shelf-'));
  await kickflat(dir, ['--help']);
}, 120_000);
afterAll(() => rmSync(dir, { recursive: true, force: true }));
const run = (...args: string[]) => kickflat(dir, args);

test('the command line fills the shelf from palettes and jobs, and gives it as GIMP palette text', async () => {
  writeFileSync(
    join(dir, 'art.svg'),
    `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="100mm" viewBox="0 0 200 100"><rect width="100" height="100" fill="#f0b530"/><rect x="100" width="100" height="100" fill="#2f8f83"/></svg>`,
  );
  writeFileSync(
    join(dir, 'bottles.gpl'),
    'GIMP Palette\nName: Bottles\n#\n242 182 50\tSun yellow\n 27 36 64\tNight blue\n',
  );
  expect((await run('shelf')).out).toBe('The shelf is empty.\n');
  const added = await run('shelf', '--add', 'bottles.gpl', '--json');
  expect(JSON.parse(added.out).inks.map((i: { name: string }) => i.name)).toEqual([
    'Sun yellow',
    'Night blue',
  ]);

  // Found inks become the nearest ones of the shelf.
  const made = await run(
    'new',
    '--out',
    'a.kickflat',
    '--deck',
    'popsicle-8.25',
    '--art',
    'art.svg',
    '--inks',
    '2',
    '--from-shelf',
  );
  expect(made.err).toBe('');
  const job = unpackJob(readFileSync(join(dir, 'a.kickflat')));
  if (!job.ok) throw new Error(job.reason);
  expect(job.value.job.faces.bottom.inks.map((i) => i.name)).toContain('Sun yellow');

  expect((await run('shelf', '--remove', 'night BLUE', '--out', 'out.gpl')).status).toBe(0);
  const text = readFileSync(join(dir, 'out.gpl'), 'utf8');
  expect(text).toContain('242 182  50\tSun yellow');
  expect(readPaletteInks(text)).toEqual({ ok: true, value: [{ name: 'Sun yellow', hex: '#f2b632' }] });
}, 60_000);

test('what the shelf can not take is said with a mend, and nothing is written', async () => {
  expectRefusal(await run('shelf', '--add', 'art.svg'), 2, /no palette and no job/);
  expectRefusal(await run('shelf', '--add', 'missing.gpl'), 3, /does not exist/);
  expectRefusal(await run('shelf', '--remove', 'Moss'), 2, /Moss/);
  expectRefusal(await run('shelf', '--out', 'a.txt'), 2, /\.gpl or \.json/);
  await run('shelf', '--remove', 'Sun yellow');
  expectRefusal(await run('shelf', '--out', 'b.gpl'), 2, /empty/);
  expectRefusal(
    await run('new', '--out', 'b.kickflat', '--deck', 'popsicle-8.25', '--art', 'art.svg', '--from-shelf'),
    2,
    /ink shelf is empty/,
  );
  expect(readdirSync(dir)).not.toContain('b.kickflat');
}, 60_000);
