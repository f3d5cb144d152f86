import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { TOOLS } from '../core/pdf/renderers.ts';
import { crossesOn, type Place } from '../electron/calibrationCrosses.ts';
import { station } from './board.ts';
import { chromiumPath, launch } from './chromium.ts';
import { type StudioHost, startHost } from './studioHost.ts';
import { newStudioPage, newTab } from './studioPage.ts';

/** A printer's fault, from its definition: where what is asked at (x, y) lands, mm from the sheet's lower left. */
const FAULT = { x: 0.9968, y: 1.0025, leanDeg: -0.17 };
const printed = ([x, y]: Place): Place => {
  const lean = (FAULT.leanDeg * Math.PI) / 180;
  return [FAULT.x * x + FAULT.y * Math.sin(lean) * y, FAULT.y * Math.cos(lean) * y];
};
const far = (a: Place, b: Place) => Math.hypot(a[0] - b[0], a[1] - b[1]);
/** The four lengths as they are asked for, of a sheet printed with that fault. */
function lengthsOf(pdf: string): number[] {
  const [a, b, c, d] = crossesOn(pdf).map(printed) as [Place, Place, Place, Place];
  return [far(a, b), far(a, d), far(a, c), far(b, d)];
}

describe.skipIf(chromiumPath === undefined || !TOOLS.poppler)(
  'a printer is measured in the studio (needs poppler)',
  () => {
    let browser: Browser;
    let host: StudioHost;
    let page: Page;
    let trouble: string[];
    beforeAll(async () => {
      browser = await launch();
      host = await startHost();
      ({ page, trouble } = await newStudioPage(browser, { viewport: { width: 1440, height: 1000 } }));
      await page.goto(host.address);
      await page.getByRole('button', { name: /Start from a deck/ }).click();
      await page.getByRole('navigation', { name: 'Stations' }).waitFor();
      await station(page, 'Films');
      await page.getByLabel('Film sheets').selectOption('a4');
    });
    afterAll(async () => {
      await browser?.close();
      host?.stop();
    });

    /** The files of a calibration set, laid in the state's folder. */
    async function made(name: string): Promise<string[]> {
      const coming = page.waitForEvent('download', { timeout: 60_000 });
      await page.getByRole('button', { name: 'Make the calibration sheet' }).click();
      const files = unzipSync(new Uint8Array(readFileSync(await (await coming).path())));
      for (const [file, bytes] of Object.entries(files))
        writeFileSync(join(host.state, `${name}-${file}`), bytes);
      return Object.keys(files).sort();
    }

    test('four lengths give its scale and lean, and the check page then prints as stated', async () => {
      expect(await made('before')).toEqual(['calibration.json', 'calibration.pdf']);
      const lengths = lengthsOf(join(host.state, 'before-calibration.pdf'));
      for (const [i, label] of [
        '1 to 2, width',
        '1 to 4, height',
        '1 to 3, diagonal',
        '2 to 4, diagonal',
      ].entries()) {
        const box = page.getByLabel(`Crosses ${label}`);
        await box.fill(lengths[i]!.toFixed(2));
        await box.press('Enter');
      }
      await page.getByRole('button', { name: 'Correct films by this' }).click();
      await page.getByText(/Films are now corrected for 99\.6\d % by 100\.2\d %, -0\.1[67]°/).waitFor();
      expect(await made('after')).toEqual(['calibration-check.pdf', 'calibration.json', 'calibration.pdf']);
      const stated = [170, 250, Math.hypot(170, 250), Math.hypot(170, 250)];
      const proof = lengthsOf(join(host.state, 'after-calibration-check.pdf'));
      for (const [i, mm] of proof.entries()) {
        expect(Math.abs(mm - stated[i]!)).toBeLessThan(0.05);
        expect(Math.abs(lengths[i]! - stated[i]!)).toBeGreaterThan(0.1);
      }
      expect(trouble).toEqual([]);
    });

    test('it is remembered under its name, film and lean and all, and a new job begins on it', async () => {
      await page.getByLabel('Printed on').selectOption('tracing-paper');
      const name = page.getByLabel('Its name in your shop');
      await name.fill('Shed laser');
      await name.press('Enter');
      await page.getByRole('button', { name: 'Keep it for the shop' }).click();
      await page.getByRole('button', { name: 'Kept in your shop' }).waitFor();
      const [kept] = JSON.parse(readFileSync(join(host.state, 'shop.json'), 'utf8')).printers;
      expect(kept).toMatchObject({ name: 'Shed laser', sheet: 'a4', media: 'tracing-paper', shrinkX: 0 });
      expect(Math.abs(kept.skewDeg - FAULT.leanDeg)).toBeLessThan(0.01);
      const { page: other } = await newTab(page.context());
      await other.goto(host.address);
      await other.getByRole('button', { name: /Start from a deck/ }).click();
      await other.getByRole('navigation', { name: 'Stations' }).waitFor();
      await station(other, 'Films');
      await other.getByText(/Films are now corrected for 99\.6\d % by 100\.2\d %, -0\.1[67]°/).waitFor();
      expect(await other.getByLabel('Printed on').inputValue()).toBe('tracing-paper');
      expect(await other.getByLabel('Printer', { exact: true }).inputValue()).toBe('Shed laser');
      // Changed here it is no longer what the shop keeps, and says so.
      await other.getByLabel("Can't print within").fill('9');
      await other.getByLabel("Can't print within").press('Enter');
      await other.getByRole('button', { name: 'Keep its changes for the shop' }).waitFor();
      await other.close();
      expect(trouble).toEqual([]);
    });
  },
);
