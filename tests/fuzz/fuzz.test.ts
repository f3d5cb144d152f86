import { describe, expect, test } from 'vitest';
import { fuzz } from './fuzz.ts';
import { goodInputs, KINDS } from './goodInputs.ts';
import { mutate } from './mutate.ts';
import { chance } from './random.ts';

/** The reduced form of `npm run fuzz`: other seeds, fewer inputs; the ones made by hand run in badInput.test.ts. */
const SEED = 2026;
const PER_KIND = 17;

describe('inputs from strangers', () => {
  test(`${PER_KIND} changed files of each kind are refused in a sentence or imported right, seed ${SEED}`, async () => {
    const { tallies, troubles, requests, strayFiles } = await fuzz({
      perKind: PER_KIND,
      seed: SEED,
      byHand: false,
    });
    expect(troubles.map(({ kind, input, what }) => `${kind}, ${input}: ${what}`)).toEqual([]);
    expect(requests).toBe(0);
    expect(strayFiles).toEqual([]);
    expect(tallies.map(({ kind, tried }) => [kind, tried])).toEqual(KINDS.map((kind) => [kind, PER_KIND]));
    // Changes that spare nothing, or touch nothing, would try nothing.
    const sum = (of: 'refused' | 'imported') => tallies.reduce((total, tally) => total + tally[of], 0);
    expect(sum('refused')).toBeGreaterThan(50);
    expect(sum('imported')).toBeGreaterThan(10);
  });

  test('the same seed makes the same bytes', async () => {
    const good = (await goodInputs()).svg;
    const bait = { address: 'http://127.0.0.1:9', file: '/none.png' };
    const made = () => {
      const random = chance(5);
      return mutate('svg', random.pick(good), random.pick(good), random, bait);
    };
    expect(Buffer.from(made()).equals(Buffer.from(made()))).toBe(true);
  });

  test('good files of every kind are imported: what is refused is refused for its change', async () => {
    const { importInput } = await import('./importInput.ts');
    const { sharpCodec, workerPool } = await import('../../electron/host/index.ts');
    const { WORKER } = await import('./bundle.ts');
    const { readPdf } = await import('../../electron/host/pdfPages.ts');
    const codec = sharpCodec({ pdf: (asked) => readPdf(asked) });
    const workers = workerPool(WORKER, 1);
    const good = await goodInputs();
    for (const kind of KINDS)
      for (const [n, bytes] of good[kind].entries())
        expect(await importInput(kind, bytes, { codec, workers }), `${kind} ${n}`).toEqual({
          end: 'imported',
          wrong: null,
        });
    await workers.close();
  });
});
