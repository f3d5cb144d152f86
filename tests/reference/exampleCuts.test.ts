import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { FilmManifest } from '../../core/film/index.ts';
import { packJob } from '../../core/job/index.ts';
import { demoJob } from '../../electron/demoJob.ts';
import { nodeFiles, sharpCodec } from '../../electron/host/index.ts';
import { kickflat } from '../electron/runCli.ts';
import { bitsOfPng } from './filmPages.ts';
import { type CutFound, cutsFound } from './knifeCuts.ts';

/**
 * The cuts of the films of all four example jobs, made by the command line and judged by their pictures and films.json
 * alone. KICKFLAT_CUTS_DPI=600 by hand, and KICKFLAT_CUTS_SHEET=letter for one size of sheet.
 */
const dpi = Number(process.env['KICKFLAT_CUTS_DPI'] ?? 200);
const BY_HAND = process.env['KICKFLAT_CUTS_DPI'] !== undefined;
const SHEETS = process.env['KICKFLAT_CUTS_SHEET']?.split(',') ?? ['a4', 'letter'];

interface Example {
  readonly name: string;
  readonly art: () => string;
  readonly options: readonly string[];
}

let dir: string;
let examples: readonly Example[];
beforeAll(async () => {
  dir = mkdtempSync(join(tmpdir(), 'kickflat-cuts-'));
  // A script without types; its shape is above.
  const script = new URL('../../build/examples.mjs', import.meta.url).href;
  examples = ((await import(script)) as { EXAMPLES: readonly Example[] }).EXAMPLES;
});
afterAll(() => rmSync(dir, { recursive: true, force: true }));

const jobs = new Map<string, Promise<string>>();
/** The same job for every size of sheet. */
function jobOf(name: string): Promise<string> {
  const known = jobs.get(name) ?? makeJob(name);
  jobs.set(name, known);
  return known;
}

/** A job's file as `npm run examples` makes it, or the demonstration's. */
async function makeJob(name: string): Promise<string> {
  const path = `${name}.kickflat`;
  if (name === 'night-heron') {
    const demo = await demoJob(
      fileURLToPath(new URL('../../build/demo', import.meta.url)),
      nodeFiles(),
      sharpCodec(),
    );
    if (!demo.ok) throw new Error(demo.reason);
    writeFileSync(join(dir, path), packJob(demo.value));
    return path;
  }
  const { art, options } = examples.find((one) => one.name === name)!;
  const toned = options.includes('--method');
  const file = `${name}.${toned ? 'png' : 'svg'}`;
  if (toned)
    await sharp(Buffer.from(art()), { density: 25.4 * 6 })
      .png()
      .toFile(join(dir, file));
  else writeFileSync(join(dir, file), art());
  const made = await kickflat(dir, ['new', '--art', file, '--fit', 'cover', ...options, '--out', path]);
  expect([made.status, made.err]).toEqual([0, '']);
  return path;
}

describe(`cuts of the example jobs at ${dpi} dpi`, () => {
  // Slack Water's three cuts are the same on either.
  const cases = SHEETS.flatMap((sheet) =>
    ['night-heron', 'slack-water', 'fog-bank', 'tide-table'].map((name) => ({ sheet, name })),
  ).filter(({ sheet, name }) => BY_HAND || sheet === 'a4' || name !== 'slack-water');
  for (const { sheet, name } of cases)
    test(`${name} on ${sheet}: never longer through ink than the best straight cut, no bend under 8 mm, and blank wherever a knife finds blank`, async () => {
      const out = join(dir, `${name}-${sheet}`);
      const job = await jobOf(name);
      const given = ['--out', out, '--sheet', sheet, '--dpi', String(dpi), '--masks'];
      const made = await kickflat(dir, ['films', job, ...given]);
      expect(made.status).toBe(0);
      const manifest = JSON.parse(readFileSync(join(out, 'films.json'), 'utf8')) as FilmManifest;
      const found: (CutFound & { readonly film: string })[] = [];
      for (const film of manifest.films) {
        const mask = readdirSync(out).find((one) => one.startsWith(`mask-${film.face}-${film.pull}-`))!;
        for (const cut of cutsFound(film, await bitsOfPng(join(out, mask)), manifest.dpi))
          found.push({ ...cut, film: film.ink });
      }
      expect(found.length).toBeGreaterThanOrEqual(3);
      // A rough edge's pixels along the knife are no crossing: 0.2 mm and a pixel.
      const rough = 0.2 + 25.4 / dpi;
      for (const cut of found) {
        const where = `${cut.film}, sheets ${cut.pages.join(' and ')}`;
        expect(cut.crossed, where).toBeLessThanOrEqual(cut.straight + rough);
        expect(cut.bend, where).toBeGreaterThan(7.9);
        if (cut.blank) expect(cut.crossed, where).toBeLessThanOrEqual(rough);
      }
      if (BY_HAND) {
        const sum = (of: (cut: CutFound) => number) => found.reduce((n, cut) => n + of(cut), 0);
        console.info(
          `| ${name} | ${sheet} | ${dpi} | ${found.length} | ${sum((c) => Number(c.blank))} | ${sum((c) => c.straight).toFixed(1)} | ${sum((c) => c.crossed).toFixed(1)} |`,
        );
      }
    }, 300_000);
});
