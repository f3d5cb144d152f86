import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { blankMask, inkCount, type Mask, msbRows, setBit, subtract } from '../../core/raster/index.ts';
import { trapInk } from '../../core/trap/index.ts';
import { numbers } from '../core/trap/labelMap.ts';

const PYTHON = '/usr/bin/python3';
const SCRIPT = fileURLToPath(new URL('trapByOpencv.py', import.meta.url));
const present = spawnSync(PYTHON, ['-c', 'import cv2'], { stdio: 'ignore' }).status === 0;
if (!present) console.warn('Skipped: a large trap against OpenCV; python3-opencv is not installed.');

/** The size of a deck's film at 600 dpi. */
const [WIDTH, HEIGHT] = [19370, 4960];

/** Two inks over the whole film: discs of one, each in a ring of the other, some of them cut by the border. */
function film(): { own: Mask; other: Mask } {
  const [own, other] = [blankMask(WIDTH, HEIGHT), blankMask(WIDTH, HEIGHT)];
  const next = numbers(4);
  for (let n = 0; n < 900; n++) {
    const [cx, cy, r] = [next() * WIDTH, next() * HEIGHT, 4 + next() * 60];
    const ring = r + (next() < 0.3 ? 3 + next() * 6 : 20 + next() * 40);
    const gap = next() < 0.2 ? 4 : 0;
    for (let y = Math.max(0, Math.floor(cy - ring)); y < Math.min(HEIGHT, cy + ring); y++)
      for (let x = Math.max(0, Math.floor(cx - ring)); x < Math.min(WIDTH, cx + ring); x++) {
        const d = Math.hypot(x - cx, y - cy);
        if (d > ring) continue;
        setBit(own, x, y, d <= r);
        // Some rings stand off by a gap of bare wood that ink must not leap.
        setBit(other, x, y, d > r + gap);
      }
  }
  return { own, other };
}

const pbm = (mask: Mask) => Buffer.concat([Buffer.from(`P4\n${mask.width} ${mask.height}\n`), msbRows(mask)]);

test.skipIf(!present)('the trap of a whole film equals OpenCV’s dilation, cut and joined', () => {
  const folder = mkdtempSync(join(tmpdir(), 'kickflat-trap-'));
  try {
    const { own, other } = film();
    const rule = { spreads: 0, under: 1, widthMm: 0.5, why: '', overridden: false };
    const print = trapInk([own, other], 0, [rule], 600, null);
    expect(inkCount(subtract(print, own))).toBeGreaterThan(1_000_000);
    const [a, b, out] = ['own.pbm', 'other.pbm', 'out.pbm'].map((name) => join(folder, name)) as [
      string,
      string,
      string,
    ];
    writeFileSync(a, pbm(own));
    writeFileSync(b, pbm(other));
    execFileSync(PYTHON, [SCRIPT, a, b, String((0.5 * 600) / 25.4), out], { stdio: 'inherit' });
    expect(pbm(print).equals(readFileSync(out))).toBe(true);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
