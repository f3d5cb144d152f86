import { execFileSync } from 'node:child_process';
import {
  closeSync,
  ftruncateSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { makeBad } from '../fixtures/makeBad.ts';
import { expectRefusal, kickflat } from './runCli.ts';

const GB = 1024 ** 3;
let dir: string;
beforeAll(async () => {
  dir = mkdtempSync(join(tmpdir(), 'kickflat-bad-'));
  await kickflat(dir, ['--help']);
}, 120_000);
afterAll(() => rmSync(dir, { recursive: true, force: true }));

describe('inputs that mean harm', () => {
  for (const bad of makeBad())
    test(`${bad.name}: ${bad.why}`, async () => {
      const at = mkdtempSync(join(dir, 'one-'));
      writeFileSync(join(at, bad.fileName), bad.bytes());
      const args =
        bad.as === 'job'
          ? ['check', bad.fileName]
          : ['new', '--art', bad.fileName, '--fit', 'contain', '--out', 'made.kickflat'];
      const ran = await kickflat(at, args);
      expect(ran.ms).toBeLessThan(10_000);
      expect(ran.memory).toBeLessThan(1.5 * GB);
      if (bad.expect === 'refused' || ran.status !== 0) {
        expectRefusal(ran, ran.status === 3 ? 3 : 2, /./);
        expect(readdirSync(at).sort()).toEqual(['.watch.mjs', bad.fileName].sort());
      } else expect(readdirSync(at)).toContain('made.kickflat');
    });
});

/** Takes all room of a disk but three blocks. */
function fill(path: string): void {
  const file = openSync(path, 'w');
  let size = 0;
  try {
    for (;;) size += writeSync(file, Buffer.alloc(4096));
  } catch {
    ftruncateSync(file, size - 3 * 4096);
  } finally {
    closeSync(file);
  }
}

describe('a disk that is full', () => {
  const mountable = process.platform === 'linux' && process.getuid?.() === 0;
  test.skipIf(!mountable)('leaves the job and the films that were there, and says so', async () => {
    const disk = join(dir, 'disk');
    mkdirSync(disk);
    try {
      execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=600k', 'tmpfs', disk], { stdio: 'ignore' });
    } catch {
      return; // Inside some containers even root may not mount.
    }
    try {
      const art = join(dir, 'a.svg');
      writeFileSync(
        art,
        '<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="90mm" viewBox="0 0 300 90"><circle cx="150" cy="45" r="40" fill="#e8613c"/></svg>',
      );
      const job = join(disk, 'a.kickflat');
      expect((await kickflat(dir, ['new', '--art', art, '--out', job])).status).toBe(0);
      const before = readFileSync(job);
      fill(join(disk, 'fill'));
      expectRefusal(
        await kickflat(dir, ['films', job, '--out', join(disk, 'films'), '--dpi', '300', '--masks']),
        3,
        /full/,
      );
      const noise = join(dir, 'noise.png');
      const { default: sharp } = await import('sharp');
      const size = { width: 300, height: 300, channels: 3 as const };
      const bytes = Buffer.from(
        Uint8Array.from({ length: 300 * 300 * 3 }, (_, i) => Math.imul(i, 2654435761) >>> 24),
      );
      await sharp(bytes, { raw: size }).png().toFile(noise);
      expectRefusal(
        await kickflat(dir, ['add', job, '--art', noise, '--fit', 'contain', '--inks', '3']),
        3,
        /full/,
      );
      expect(readFileSync(job).equals(before)).toBe(true);
      expect(
        readdirSync(disk).filter((name) => !['a.kickflat', 'fill', 'a.kickflat.bak'].includes(name)),
      ).toEqual([]);
    } finally {
      execFileSync('umount', [disk]);
    }
  });
});
