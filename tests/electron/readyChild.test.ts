import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { askInChild } from '../../electron/host/index.ts';
import { type ReadyChild, readyChild } from '../../electron/readyChild.ts';

const dir = mkdtempSync(join(tmpdir(), 'kickflat-ready-'));
afterAll(() => rmSync(dir, { recursive: true, force: true }));
const SVG = new Uint8Array([60, 115, 118, 103, 62]);

/** Answers with its own number, as what went wrong. */
const entry = join(dir, 'answers.mjs');
writeFileSync(entry, "process.once('message', () => process.send({ error: String(process.pid) }));");
/** Hangs with its question. */
const hangs = join(dir, 'hangs.mjs');
writeFileSync(hangs, "process.once('message', () => { for (;;); });");

const lives = (pid: number | undefined): boolean => {
  try {
    process.kill(pid ?? 0, 0);
    return true;
  } catch {
    return false;
  }
};
async function ended(pid: number | undefined): Promise<boolean> {
  for (let i = 0; i < 100 && lives(pid); i++) await new Promise((resolve) => setTimeout(resolve, 50));
  return !lives(pid);
}
const pidOf = (answer: unknown): number => Number((answer as { readonly error: string }).error);

/** The same with the number of the process seen when it is taken. */
function watched(ready: ReadyChild): { ready: ReadyChild; taken: (number | undefined)[] } {
  const taken: (number | undefined)[] = [];
  const take = () => {
    const child = ready.take();
    taken.push(child?.pid);
    return child;
  };
  return { ready: { ...ready, take }, taken };
}

test('a process started ahead answers the first question and ends; others answer the next ones', async () => {
  const { ready, taken } = watched(readyChild(entry));
  const ask = askInChild(entry, ready);
  const first = pidOf(await ask(SVG, 5));
  const second = pidOf(await ask(SVG, 5));
  expect(taken).toEqual([first, undefined]);
  expect(second).not.toBe(first);
  expect(await ended(first)).toBe(true);
  expect(await ended(second)).toBe(true);
});

test('one that was killed before its question is replaced', async () => {
  const inner = readyChild(entry);
  const child = inner.take();
  expect(child?.pid).toBeGreaterThan(0);
  child?.kill('SIGKILL');
  expect(await ended(child?.pid)).toBe(true);
  // Handed over once: whoever asks then gets a new one.
  expect(inner.take()).toBeNull();
  expect(pidOf(await askInChild(entry, inner)(SVG, 5))).not.toBe(child?.pid);
});

test('one that hangs is late all the same, and is ended', async () => {
  const { ready, taken } = watched(readyChild(hangs));
  expect(await askInChild(hangs, ready)(SVG, 1)).toBe('late');
  expect(taken[0]).toBeGreaterThan(0);
  expect(await ended(taken[0])).toBe(true);
});

test('one that nobody asked is ended with the work, and takes no question after that', async () => {
  const ready = readyChild(entry);
  ready.end();
  expect(ready.take()).toBeNull();
  expect(pidOf(await askInChild(entry, ready)(SVG, 5))).toBeGreaterThan(0);
});
