import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
// @ts-expect-error plain JavaScript without types
import { build } from '../../build/build.mjs';
import { deckTemplate } from '../../core/deck/index.ts';
import { hashOf, type Ink, inkFrom, newJob, placeArt } from '../../core/job/index.ts';
import { makeFilms } from '../../core/makeFilms.ts';
import { blankMask, deflate, type Mask } from '../../core/raster/index.ts';
import { Stopped, sharpCodec, workerPool } from '../../electron/host/index.ts';

const WORKER = fileURLToPath(new URL('../../dist/host/worker.cjs', import.meta.url));
let dir: string;
let slow: string;
beforeAll(async () => {
  await (build as (o: object) => Promise<unknown>)({ only: 'command' });
  dir = mkdtempSync(join(tmpdir(), 'kickflat-workers-'));
  slow = join(dir, 'slow.mjs');
  // Speaks as worker.ts does; its task never ends by itself when asked to.
  writeFileSync(
    slow,
    `import { parentPort, threadId } from 'node:worker_threads';
     parentPort.on('message', ({ id, task, input }) => {
       if (task === 'forever') for (;;);
       if (task === 'die') process.exit(3);
       const until = Date.now() + input;
       while (Date.now() < until);
       parentPort.postMessage({ id, output: threadId });
     });`,
  );
});
afterAll(() => rmSync(dir, { recursive: true, force: true }));

const ink = (mask: Mask, word: number): Mask => {
  mask.data[0] = word;
  return mask;
};

describe('the pool', () => {
  test('runs the real tasks on shared masks, in place', async () => {
    const pool = workerPool(WORKER, 2);
    const below = ink(blankMask(32, 1, true), 0b1111);
    const piece = ink(blankMask(32, 1, true), 0b0110);
    const other = blankMask(32, 1, true);
    await pool.run('layOver', { below: [below, other], piece: [blankMask(32, 1, true), piece] });
    expect([below.data[0], other.data[0]]).toEqual([0b1001, 0b0110]);
    await expect(pool.run('nothing', {})).rejects.toThrow('no task');
    // A bug in a task is its own error, and the thread goes on.
    await expect(pool.run('layOver', null)).rejects.toThrow();
    await pool.run('layOver', { below: [below], piece: [piece] });
    await pool.close();
    await expect(pool.run('layOver', {})).rejects.toThrow('sent home');
  });

  test('uses as many threads as it may, no more, and answers every call', async () => {
    const pool = workerPool(slow, 3);
    const ids = await Promise.all(Array.from({ length: 24 }, () => pool.run<number, number>('wait', 20)));
    expect(ids).toHaveLength(24);
    expect(new Set(ids).size).toBeLessThanOrEqual(3);
    await pool.close();
  });

  test('ends a thread that has done many tasks and takes another, and loses no answer', async () => {
    const pool = workerPool(slow, 1);
    const ids: number[] = [];
    for (let i = 0; i < 150; i++) ids.push(await pool.run<number, number>('wait', 0));
    const changes = ids.filter((id, i) => i > 0 && id !== ids[i - 1]).length;
    expect(changes).toBeGreaterThanOrEqual(1);
    // A thread holds what it was sent: it must not be kept for ever, nor be started anew for every task.
    expect(changes).toBeLessThanOrEqual(3);
    await pool.close();
  });

  test('stops a task that would never end, drops those that wait for it, and goes on', async () => {
    const pool = workerPool(slow, 1);
    const abort = { aborted: false };
    const stuck = pool.run('forever', 0, abort);
    const queued = pool.run('wait', 1, abort);
    const innocent = pool.run<number, number>('wait', 1);
    abort.aborted = true;
    await expect(stuck).rejects.toBeInstanceOf(Stopped);
    await expect(queued).rejects.toBeInstanceOf(Stopped);
    expect(await innocent).toBeGreaterThan(0);
    await expect(pool.run('wait', 1, abort)).rejects.toBeInstanceOf(Stopped);
    await pool.close();
  });

  test('a thread that dies fails its own call only', async () => {
    const pool = workerPool(slow, 1);
    const dying = pool.run('die', 0);
    const after = pool.run<number, number>('wait', 1);
    await expect(dying).rejects.toThrow('status 3');
    expect(await after).toBeGreaterThan(0);
    await pool.close();
  });
});

describe('films', () => {
  const ART = `<svg xmlns="http://www.w3.org/2000/svg" width="500mm" height="150mm" viewBox="0 0 500 150"><rect width="500" height="150" rx="40" fill="#f2b632"/><circle cx="180" cy="75" r="60" fill="#e8613c"/><path d="M20 130L480 20L460 110Z" fill="#1b2440"/></svg>`;

  async function request(workers: number) {
    const bytes = new TextEncoder().encode(ART);
    const codec = sharpCodec();
    const probe = await codec.probe(bytes, 'a.svg');
    const deck = deckTemplate('popsicle-8.25');
    if (!probe.ok || !deck) throw new Error('The art or the deck is not there.');
    const hash = hashOf(bytes);
    const start = newJob({ name: 'Three inks', deck });
    const inks: Ink[] = [];
    for (const hex of ['#f2b632', '#e8613c', '#1b2440']) inks.push(inkFrom({ name: hex, hex }, inks));
    const bottom = { ...start.faces.bottom, inks };
    const facts = { ...probe.value, name: 'a.svg', hash, ground: null };
    const options = { fit: 'actual', wrap: 'surface', artDpi: null } as const;
    const placed = placeArt({ ...start, faces: { ...start.faces, bottom } }, 'bottom', facts, options);
    if (!placed.ok) throw new Error(placed.reason);
    const pool = workerPool(WORKER, workers);
    return {
      pool,
      films: {
        job: placed.value.job,
        art: new Map([[hash, bytes]]),
        faces: ['bottom'] as const,
        codec,
        workers: pool,
        deflate,
        masks: true,
        composite: true,
        dpi: 150,
      },
    };
  }

  test('are the same bytes with 1, 2 and 4 threads', async () => {
    const sets: ReadonlyMap<string, Uint8Array>[] = [];
    for (const count of [1, 2, 4]) {
      const { pool, films } = await request(count);
      const made = await makeFilms(films);
      await pool.close();
      if (!made.ok) throw new Error(made.reason);
      sets.push(made.value.files);
    }
    const [one, two, four] = sets;
    expect([...(one?.keys() ?? [])]).toContain('films.pdf');
    for (const [name, bytes] of one ?? []) {
      expect(Buffer.from(two?.get(name) ?? []).equals(Buffer.from(bytes)), `${name}, 2 threads`).toBe(true);
      expect(Buffer.from(four?.get(name) ?? []).equals(Buffer.from(bytes)), `${name}, 4 threads`).toBe(true);
    }
  });

  test('stop at a dozen moments with nothing left running, seed 5', async () => {
    const { pool, films } = await request(2);
    let seed = 5;
    let stopped = 0;
    for (let round = 0; round < 12; round++) {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      const abort = { aborted: false };
      const timer = setTimeout(
        () => {
          abort.aborted = true;
        },
        (seed / 2 ** 32) * 600,
      );
      try {
        const made = await makeFilms({ ...films, abort });
        if (!made.ok) {
          expect(made.kind).toBe('cancelled');
          stopped++;
        }
      } catch (error) {
        expect(error).toBeInstanceOf(Stopped);
        stopped++;
      } finally {
        clearTimeout(timer);
      }
    }
    expect(stopped).toBeGreaterThan(3);
    // The pool still works, and its threads are as many as it may have.
    const again = await makeFilms(films);
    expect(again.ok).toBe(true);
    await pool.close();
  });
});
