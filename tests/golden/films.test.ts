import { createHash } from 'node:crypto';
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { zlibSync } from 'fflate';
import { expect, test } from 'vitest';
import { filmManifest, layOutFace } from '../../core/film/index.ts';
import { assemblyPdf, filmsPdf, separationsPdf } from '../../core/pdf/index.ts';
import { request, testFilms } from '../core/film/testFace.ts';

const GOLDEN = fileURLToPath(new URL('./films.json', import.meta.url));
const CHANGED = fileURLToPath(new URL('./films-changed.json', import.meta.url));

/** Numbers to a nanometre: what is left below is rounding, not layout. */
const tidy = (_key: string, value: unknown) => (typeof value === 'number' ? Number(value.toFixed(6)) : value);

// Golden files are written by `npm run golden` only, never by the tests.
test('films of the test face on A4 and letter are what they were: manifest, and hashes of every document', async () => {
  const made: Record<string, unknown> = {};
  for (const named of ['a4', 'letter']) {
    const outcome = layOutFace(request(testFilms(72), { named }));
    if (!outcome.ok) throw new Error(outcome.reason);
    const layouts = [outcome.value];
    const options = { jobName: 'Night Heron', deflate: (bytes: Uint8Array) => zlibSync(bytes, { level: 6 }) };
    const hash = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');
    made[named] = {
      manifest: filmManifest('Night Heron', layouts, () => ({ x: 0.004, y: 0.003 })),
      films: hash(await filmsPdf(layouts, options)),
      assembly: hash(await assemblyPdf(layouts, options)),
      separations: hash(await separationsPdf(layouts, options)),
    };
  }
  const text = `${JSON.stringify(made, tidy, 1)}\n`;
  if (process.env['KICKFLAT_GOLDEN'] === 'write') writeFileSync(GOLDEN, text);
  const known = existsSync(GOLDEN) ? readFileSync(GOLDEN, 'utf8') : '';
  if (known === text) rmSync(CHANGED, { force: true });
  else writeFileSync(CHANGED, text);
  expect(
    text === known,
    'films changed: compare films-changed.json with films.json, then npm run golden',
  ).toBe(true);
});
