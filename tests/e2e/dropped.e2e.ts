import { execFileSync } from 'node:child_process';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openRasterByPython } from '../fixtures/layeredFiles.ts';
import { settled, station } from './board.ts';
import { chromiumPath, launch } from './chromium.ts';
import { type StudioHost, startHost } from './studioHost.ts';
import { newStudioPage } from './studioPage.ts';

function canMake(): boolean {
  try {
    execFileSync('python3', ['--version'], { stdio: 'ignore' });
    execFileSync('convert', ['-version'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}

/** Drops a file on the window as a file manager does. */
const drop = (page: Page, name: string, bytes: Uint8Array) =>
  page.evaluate(
    ([named, base64]) => {
      const transfer = new DataTransfer();
      const data = Uint8Array.from(atob(base64 as string), (c) => c.charCodeAt(0));
      transfer.items.add(new File([data], named as string));
      const to = document.querySelector('.window') ?? document.body;
      for (const type of ['dragover', 'drop'])
        to.dispatchEvent(new DragEvent(type, { dataTransfer: transfer, bubbles: true, cancelable: true }));
    },
    [name, Buffer.from(bytes).toString('base64')],
  );

const PALETTE =
  'GIMP Palette\nName: Harbour\nColumns: 2\n#\n 18  52  86\tHarbour blue\n240 120  40\tBuoy orange\n';

describe.skipIf(chromiumPath === undefined || !canMake())(
  'files dropped on the window (needs python3 and ImageMagick to make the layered one)',
  () => {
    let browser: Browser;
    let host: StudioHost;
    let page: Page;
    let trouble: string[];
    beforeAll(async () => {
      browser = await launch();
      host = await startHost();
      ({ page, trouble } = await newStudioPage(browser));
      await page.goto(host.address);
    });
    afterAll(async () => {
      await browser?.close();
      host?.stop();
    });

    test('an OpenRaster picture comes in layer by layer, each an ink, in the size it states', async () => {
      await drop(page, 'boat.ora', openRasterByPython());
      await page.locator('.board-frame').waitFor();
      await station(page, 'Inks');
      await page.locator('.pull').nth(1).waitFor();
      await settled(page);
      // The hidden sketch comes along without an ink.
      expect((await page.locator('.pull b').allTextContents()).sort()).toEqual(['Boat', 'Sky']);
      expect(await page.getByRole('radio', { name: /layer/i }).first().isChecked()).toBe(true);
      // 300 × 200 points at 150 dpi are 50.8 × 33.87 mm; the hull fills 200 × 40 of them and the mast 10 × 80.
      const boat = page.locator('.pull', { hasText: 'Boat' }).locator('small');
      const mm2 = ((200 * 40 + 10 * 80) * 25.4 ** 2) / 150 ** 2;
      await expect
        .poll(async () => Number(/([\d.]+) cm²/.exec((await boat.textContent()) ?? '')?.[1]), {
          timeout: 60_000,
        })
        .toBeCloseTo(mm2 / 100, 0);
      expect(trouble).toEqual([]);
    });

    test('a palette goes on the ink shelf and changes nothing on the deck', async () => {
      const before = await page.locator('.pull b').allTextContents();
      await drop(page, 'harbour.gpl', new TextEncoder().encode(PALETTE));
      const shelf = page.getByRole('list', { name: 'Inks on the shelf' });
      await shelf.getByText('Harbour blue').waitFor();
      expect(await shelf.getByText('Buoy orange').count()).toBe(1);
      expect(await page.locator('.pull b').allTextContents()).toEqual(before);
      expect(trouble).toEqual([]);
    });
  },
);
