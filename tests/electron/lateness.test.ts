import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { askInChild } from '../../electron/host/index.ts';
import { waitedSeconds } from '../../electron/host/lateness.ts';

const dir = mkdtempSync(join(tmpdir(), 'kickflat-late-'));
afterAll(() => rmSync(dir, { recursive: true, force: true }));
const SVG = new Uint8Array([60, 115, 118, 103, 62]);

function child(name: string, what: string) {
  const entry = join(dir, `${name}.mjs`);
  writeFileSync(entry, `process.once('message', () => { ${what} });`);
  return askInChild(entry);
}

test.skipIf(process.platform !== 'linux')(
  'a trial that had to wait for a busy machine is not late; one that works for as long is',
  async () => {
    // Three seconds by the clock and hardly any work, where two of work are allowed.
    const waits = child('waits', "setTimeout(() => process.send({ error: 'rested' }), 3000);");
    expect(await waits(SVG, 2)).toEqual({ error: 'rested' });
    const works = child('works', 'for (;;);');
    expect(await works(SVG, 2)).toBe('late');
  },
);

test('however little it works, a trial ends before the ten seconds that are promised', async () => {
  const sleeps = child('sleeps', 'setInterval(() => undefined, 1000);');
  const started = performance.now();
  expect(await sleeps(SVG, 1)).toBe('late');
  expect(performance.now() - started).toBeGreaterThan(900);
});

test.skipIf(process.platform !== 'linux')(
  'a trial that others keep from the processors is not late while it waits for them',
  () => {
    // What the system counts as waiting is no work, and no more than the clock went on.
    const before = { waited: waitedSeconds(process.pid), at: performance.now() };
    const busy = Array.from({ length: availableParallelism() * 3 }, () =>
      spawn(process.execPath, ['-e', 'for (;;);'], { stdio: 'ignore' }),
    );
    try {
      const until = performance.now() + 3000;
      while (performance.now() < until);
      const gone = (performance.now() - before.at) / 1000;
      const waited = waitedSeconds(process.pid) - before.waited;
      expect(waited).toBeGreaterThan(0.1);
      expect(waited).toBeLessThan(gone);
    } finally {
      for (const child of busy) child.kill('SIGKILL');
    }
  },
);
