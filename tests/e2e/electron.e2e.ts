import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { _electron, type ElectronApplication, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { electronProgram, hasDisplay } from '../../electron/launch.ts';
import { changeInk, demoOnDeck, everyStation } from './flows.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const program = electronProgram(join(ROOT, 'package.json'));
const missing = !program
  ? 'the Electron runtime is not installed here'
  : hasDisplay()
    ? null
    : 'there is no display to open a window on';

/** The flows of the browser build in a real window; skipped, with the reason in the name, where no window can open. */
describe.skipIf(missing !== null)(`the studio in a window${missing ? ` (skipped: ${missing})` : ''}`, () => {
  const state = mkdtempSync(join(tmpdir(), 'kickflat-window-'));
  let app: ElectronApplication;
  let page: Page;
  const trouble: string[] = [];
  beforeAll(async () => {
    app = await _electron.launch({
      executablePath: program as string,
      args: [join(ROOT, 'dist/electron/main.cjs'), `--user-data-dir=${state}`],
      env: { ...(process.env as Record<string, string>), KICKFLAT_STATE: state },
    });
    page = await app.firstWindow();
    page.on('pageerror', (error) => trouble.push(error.message));
  });
  afterAll(async () => {
    await app?.close();
    rmSync(state, { recursive: true, force: true });
  });

  test('from the empty studio to the demo, its proof on the deck', () => demoOnDeck(page));
  test('an ink is changed, undone and made again', () => changeInk(page));
  test('every station opens without complaint', async () => {
    await everyStation(page);
    expect(trouble).toEqual([]);
  });
  test('the page has no way to Node', async () => {
    expect(
      await page.evaluate(() => [typeof (window as never)['require'], typeof (window as never)['process']]),
    ).toEqual(['undefined', 'undefined']);
  });
});
