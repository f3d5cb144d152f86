import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { expectRefusal, kickflat } from './runCli.ts';

const HEXES = ['#f7f3e8', '#f2b632', '#e8613c', '#1b2440'];
let dir: string;
const run = (...args: string[]) => kickflat(dir, args);
beforeAll(async () => {
  dir = mkdtempSync(join(tmpdir(), 'kickflat-inks-'));
  const rows = HEXES.map((hex, i) => `<rect y="${15 * i}" width="100" height="15" fill="${hex}"/>`);
  writeFileSync(
    join(dir, 'art.svg'),
    `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="60mm" viewBox="0 0 100 60">${rows.join('')}</svg>`,
  );
  const made = await run('new', '--out', 'a.kickflat', '--art', 'art.svg', '--inks', '2');
  expect(made.status, made.err).toBe(0);
}, 120_000);
afterAll(() => rmSync(dir, { recursive: true, force: true }));

test('one ink fewer and one more are tried beside the number asked for, each with its figures and its proof', async () => {
  const before = readFileSync(join(dir, 'a.kickflat'));
  const ran = await run('inks', 'a.kickflat', '--count', '3', '--proofs', 'tried', '--json');
  expect(ran.status, ran.err).toBe(0);
  const { face, sets } = JSON.parse(ran.out);
  expect(face).toBe('bottom');
  expect(sets.map((set: { inks: unknown[] }) => set.inks.length)).toEqual([2, 3, 4]);
  const [two, three, four] = sets;
  // All four colours are the art's own: with them nothing is off, and with fewer more and more.
  expect(four.advised).toBe(true);
  expect(four.inks.map((ink: { hex: string }) => ink.hex).sort()).toEqual([...HEXES].sort());
  expect(four.deltaE00.mean).toBeLessThan(0.5);
  expect(three.deltaE00.mean).toBeGreaterThan(four.deltaE00.mean + 1);
  expect(two.deltaE00.mean).toBeGreaterThan(three.deltaE00.mean);
  for (const { proof } of sets) {
    const { width, height, format } = await sharp(join(dir, proof)).metadata();
    expect(format).toBe('png');
    expect(width / height).toBeCloseTo(100 / 60, 1);
  }
  expect(readFileSync(join(dir, 'a.kickflat')).equals(before)).toBe(true);
}, 120_000);

test('without a number the art’s own is advised, in words a person reads', async () => {
  const ran = await run('inks', 'a.kickflat');
  expect(ran.status, ran.err).toBe(0);
  expect(ran.out).toMatch(/^4 inks, advised: ΔE00 0\.\d in the mean/m);
  expect(ran.out).toContain('3 inks: ΔE00');
}, 120_000);

test('what can not be tried is refused in a sentence', async () => {
  expectRefusal(await run('inks', 'a.kickflat', '--count', '0'), 2, /count/);
  expectRefusal(await run('inks', 'a.kickflat', '--face', 'top'), 2, /top has no art/);
  expectRefusal(await run('inks', 'a.kickflat', '--veneer', 'cheese'), 2, /cheese/);
}, 120_000);
