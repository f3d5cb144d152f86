import { readFileSync } from 'node:fs';
import { unzipSync } from 'fflate';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { settled, station } from './board.ts';
import { chromiumPath, launch } from './chromium.ts';
import { changeInk, demoOnDeck, everyStation } from './flows.ts';
import { type StudioHost, startHost } from './studioHost.ts';
import { newStudioPage, newTab } from './studioPage.ts';

describe.skipIf(chromiumPath === undefined)('the studio in a browser, served by the program', () => {
  let browser: Browser;
  let host: StudioHost;
  let page: Page;
  let trouble: string[];
  beforeAll(async () => {
    browser = await launch();
    host = await startHost();
    ({ page, trouble } = await newStudioPage(browser));
  });
  afterAll(async () => {
    await browser?.close();
    host?.stop();
  });

  test('from the empty studio to the demo, its proof on the deck', async () => {
    await page.goto(host.address);
    await demoOnDeck(page);
    expect(trouble).toEqual([]);
  });

  test('an ink is changed, undone and made again', async () => {
    await changeInk(page);
  });

  test('every station opens without complaint', async () => {
    await everyStation(page);
    expect(trouble).toEqual([]);
  });

  test('films of both faces come as one download whose manifest names the changed ink', async () => {
    await station(page, 'Films');
    await settled(page);
    const coming = page.waitForEvent('download', { timeout: 360_000 });
    await page.getByRole('button', { name: 'Make films' }).click();
    await page.locator('progress').waitFor();
    const file = await (await coming).path();
    const files = unzipSync(new Uint8Array(readFileSync(file)));
    const named = (end: string) => Object.entries(files).find(([name]) => name.endsWith(end))?.[1];
    expect(new TextDecoder().decode(named('films.pdf')!.slice(0, 5))).toBe('%PDF-');
    const manifest = JSON.parse(new TextDecoder().decode(named('films.json')!));
    const inks = manifest.films.map(
      (f: { face: string; ink: string; pull: number }) => `${f.face} ${f.pull} ${f.ink}`,
    );
    expect(inks).toHaveLength(7);
    expect(inks.some((i: string) => /bottom 3 (Harbour coral|coral)/.test(i))).toBe(true);
    await page.getByText(/^Films are ready/).waitFor({ timeout: 60_000 });
    expect(trouble).toEqual([]);
  });

  test('an export that is stopped says so and brings no file', async () => {
    let downloads = 0;
    page.on('download', () => {
      downloads++;
    });
    await page.getByRole('button', { name: 'Make films' }).click();
    await page.getByRole('button', { name: 'Stop' }).click();
    await page.getByText('Stopped before it was finished.').waitFor();
    await page.getByRole('button', { name: 'Make films' }).waitFor();
    expect(downloads).toBe(0);
  });

  test('unsaved work is there again after the program was killed', async () => {
    await station(page, 'Press');
    await page.getByRole('textbox', { name: 'Shop' }).fill('Shed number nine');
    await page.getByRole('textbox', { name: 'Shop' }).blur();
    // The studio promises two seconds; a busy machine gets a little more.
    await page.waitForTimeout(4000);
    await host.crash();
    host = await startHost(host.state);
    await page.goto(host.address);
    await page.getByRole('button', { name: 'Open it again' }).click();
    await page.getByRole('navigation', { name: 'Stations' }).waitFor();
    await station(page, 'Press');
    expect(await page.getByRole('textbox', { name: 'Shop' }).inputValue()).toBe('Shed number nine');
  });

  test('a drawing dropped on an empty studio is laid on a deck with its own inks', async () => {
    const { page: other } = await newTab(page.context());
    await other.goto(host.address);
    await other.getByRole('button', { name: /Start from art/ }).waitFor();
    await other.evaluate(() => {
      const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="400" height="120" viewBox="0 0 400 120">
        <circle cx="60" cy="60" r="50" fill="#f2b632"/><path d="M140 110 200 10l60 100z" fill="#1b2440"/>
        <path d="M300 20h80v80h-80z" fill="#e8613c"/></svg>`;
      const transfer = new DataTransfer();
      transfer.items.add(new File([svg], 'three-shapes.svg', { type: 'image/svg+xml' }));
      document
        .querySelector('.window')!
        .dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }));
    });
    await other.locator('.piece').waitFor();
    await settled(other);
    await station(other, 'Inks');
    expect(await other.locator('.pull').count()).toBe(3);
    await other.close();
  });
});
