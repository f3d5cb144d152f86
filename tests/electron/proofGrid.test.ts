import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { packJob } from '../../core/job/index.ts';
import { demoJob } from '../../electron/demoJob.ts';
import { nodeFiles, sharpCodec } from '../../electron/host/index.ts';
import { expectRefusal, kickflat } from './runCli.ts';

let dir: string;
beforeAll(async () => {
  dir = mkdtempSync(join(tmpdir(), 'kickflat-grid-'));
  const demo = await demoJob(
    fileURLToPath(new URL('../../build/demo', import.meta.url)),
    nodeFiles(),
    sharpCodec(),
  );
  if (!demo.ok) throw new Error(demo.reason);
  writeFileSync(join(dir, 'heron.kickflat'), packJob(demo.value));
  await kickflat(dir, ['--help']);
}, 240_000);
afterAll(() => rmSync(dir, { recursive: true, force: true }));

test('proof --grid writes four veneers in two colourways on one picture; the woods differ by row, coral by column', async () => {
  const ran = await kickflat(dir, [
    'proof',
    'heron.kickflat',
    '--grid',
    '--dpi',
    '25',
    '--out',
    'grid.png',
    '--json',
  ]);
  expect(ran.err).toBe('');
  const { width, height } = JSON.parse(ran.out);
  const { data, info } = await sharp(join(dir, 'grid.png'))
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  expect([info.width, info.height]).toEqual([width, height]);
  // Cells as laid out: gaps of 22 mm, 28 mm for the name.
  const mm = 25 / 25.4;
  const [gap, head] = [Math.round(22 * mm), Math.round(28 * mm)];
  const cell = { width: (width - gap) / 2 - gap, height: (height - gap) / 4 - gap - head };
  const same = (a: readonly [number, number], b: readonly [number, number]): number => {
    let n = 0;
    for (let y = 0; y < cell.height; y++)
      for (let x = 0; x < cell.width; x++) {
        const at = ([column, row]: readonly [number, number]) =>
          3 *
          ((gap + row * (cell.height + head + gap) + head + y) * width +
            gap +
            column * (cell.width + gap) +
            x);
        if ([0, 1, 2].every((c) => data[at(a) + c] === data[at(b) + c])) n++;
      }
    return n / (cell.width * cell.height);
  };
  // Colourways share all but coral; veneers share what lies on the base.
  expect(same([0, 0], [1, 0])).toBeGreaterThan(0.5);
  expect(same([0, 0], [1, 0])).toBeLessThan(0.99);
  expect(same([0, 0], [0, 1])).toBeLessThan(0.9);
  expect(same([0, 0], [0, 0])).toBe(1);
}, 240_000);

test('a grid is of all veneers, and of a size that can be looked at', async () => {
  const ask = (...more: string[]) =>
    kickflat(dir, ['proof', 'heron.kickflat', '--grid', '--out', 'g.png', ...more]);
  expectRefusal(await ask('--veneer', 'teal'), 2, /every veneer/);
  expectRefusal(await ask('--dpi', '600'), 2, /too large a picture/);
}, 120_000);
