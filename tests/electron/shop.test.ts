import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { newJob, packJob, unpackJob } from '../../core/job/index.ts';
import { EMPTY_SHOP, type Shop } from '../../core/shop/index.ts';
import { shopFile } from '../../electron/host/index.ts';
import { PLAIN } from '../core/deck/anyDeck.ts';
import { expectRefusal, kickflat } from './runCli.ts';

let dir: string;
beforeAll(async () => {
  dir = mkdtempSync(join(tmpdir(), 'kickflat-shop-'));
  await kickflat(dir, ['--help']);
}, 120_000);
afterAll(() => rmSync(dir, { recursive: true, force: true }));

const ART = `<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="60mm" viewBox="0 0 80 60">
  <ellipse cx="40" cy="30" rx="38" ry="28" fill="#2f8f83"/></svg>`;

test('a job’s figures are kept on this machine, and the next job begins with them', async () => {
  const empty = await kickflat(dir, ['shop']);
  expect([empty.status, empty.err]).toEqual([0, '']);
  expect(empty.out).toMatch(/no figures yet/);
  const blank = newJob({ name: 'First', deck: PLAIN });
  const press = {
    ...blank.press,
    frameWidth: 450,
    people: 2,
    exposure: { lamp: 'Black box', time: 80 },
    times: { pull: 4 },
  };
  writeFileSync(
    join(dir, 'first.kickflat'),
    packJob({
      job: { ...blank, press, printer: { ...blank.printer, name: 'Shed', dpi: 1200 } },
      art: new Map(),
    }),
  );
  const kept = await kickflat(dir, ['shop', 'first.kickflat']);
  expect([kept.status, kept.err]).toEqual([0, '']);
  expect(kept.out).toMatch(/printer +Shed, letter, 1200 dpi/);
  expect(kept.out).toMatch(/lamp +Black box, 80 s/);
  writeFileSync(join(dir, 'art.svg'), ART);
  const made = await kickflat(dir, ['new', '--art', 'art.svg', '--inks', '1', '--out', 'next.kickflat']);
  expect([made.status, made.err]).toEqual([0, '']);
  const next = unpackJob(new Uint8Array(readFileSync(join(dir, 'next.kickflat'))));
  if (!next.ok) throw new Error(next.reason);
  expect(next.value.job.printer).toMatchObject({ name: 'Shed', dpi: 1200 });
  expect(next.value.job.press).toMatchObject({
    frameWidth: 450,
    people: 2,
    exposure: { lamp: 'Black box', time: 80 },
    times: { pull: 4 },
  });
  // What --json prints can be edited and read again.
  const shop = JSON.parse((await kickflat(dir, ['shop', '--json'])).out) as Shop;
  shop.lamps.unshift({ name: 'Two tubes', distance: 300 });
  writeFileSync(join(dir, 'mine.json'), JSON.stringify(shop));
  expect((await kickflat(dir, ['shop', '--read', 'mine.json'])).out).toMatch(/lamp +Two tubes, 300 mm/);
}, 60_000);

test('a wrong file is refused by its place and what was kept stays', async () => {
  const before = readFileSync(join(dir, 'state/shop.json'), 'utf8');
  writeFileSync(
    join(dir, 'bad.json'),
    JSON.stringify({ ...EMPTY_SHOP, lamps: [{ name: 'L', distance: -3 }] }),
  );
  expectRefusal(await kickflat(dir, ['shop', '--read', 'bad.json']), 2, /lamps\[0\]\.distance/);
  writeFileSync(join(dir, 'none.json'), 'not json');
  expectRefusal(await kickflat(dir, ['shop', '--read', 'none.json']), 2, /is not JSON/);
  expectRefusal(await kickflat(dir, ['shop', '--read', 'gone.json']), 3, /gone\.json/);
  expectRefusal(await kickflat(dir, ['shop', 'first.kickflat', '--read', 'mine.json']), 2, /both given/);
  expect(readFileSync(join(dir, 'state/shop.json'), 'utf8')).toBe(before);
}, 60_000);

test('a damaged file is said to be so, and laid aside before the next is kept', async () => {
  const state = mkdtempSync(join(tmpdir(), 'kickflat-shop-state-'));
  try {
    const file = shopFile(join(state, 'new'));
    expect(await file.read()).toEqual({ ok: true, value: EMPTY_SHOP });
    expect(await file.keep({ ...EMPTY_SHOP, habits: { people: 3 } })).toEqual({ ok: true, value: undefined });
    expect(await file.read()).toMatchObject({ ok: true, value: { habits: { people: 3 } } });
    const path = join(state, 'new/shop.json');
    writeFileSync(path, '{"version":1,');
    expect(await file.read()).toMatchObject({ ok: false, kind: 'input' });
    expect((await file.keep(EMPTY_SHOP)).ok).toBe(true);
    expect(readdirSync(join(state, 'new')).sort()).toEqual(['shop.damaged.json', 'shop.json']);
    expect(readFileSync(join(state, 'new/shop.damaged.json'), 'utf8')).toBe('{"version":1,');
  } finally {
    rmSync(state, { recursive: true, force: true });
  }
});

test('films are made for a printer of the shop by its name; an unknown one is refused with those there are', async () => {
  const shed = { ...newJob({ name: 'x', deck: PLAIN }).printer, name: 'Back room', sheet: 'a3', dpi: 150 };
  const measured = { ...shed, scaleX: 1.004, scaleY: 0.998, shrinkX: 0.003, media: 'tracing-paper' as const };
  const own = join(dir, 'own');
  const kept = await shopFile(own).keep({ ...EMPTY_SHOP, printers: [measured] });
  expect(kept.ok).toBe(true);
  const env = { KICKFLAT_STATE: own };
  const made = await kickflat(
    dir,
    ['films', 'next.kickflat', '--out', 'films', '--printer', 'back ROOM', '--dpi', '150'],
    env,
  );
  expect([made.status, made.err]).toEqual([0, '']);
  const manifest = JSON.parse(readFileSync(join(dir, 'films/films.json'), 'utf8'));
  expect(manifest.sheet).toMatchObject({ name: 'a3', width: 297, height: 420 });
  // Scale as measured, and 0.3 % of it lost again as the film shrinks: 1.004 × 0.997.
  expect(manifest.films[0].printerScale.x).toBeCloseTo(1.000988, 6);
  expect(manifest.films[0].printerScale.y).toBeCloseTo(0.998, 6);
  const asked = ['films', 'next.kickflat', '--out', 'films2', '--printer', 'attic'];
  expectRefusal(await kickflat(dir, asked, env), 2, /Back room/);
});
