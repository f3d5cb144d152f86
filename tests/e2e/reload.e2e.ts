import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { settled, station } from './board.ts';
import { chromiumPath, launch } from './chromium.ts';
import { type StudioHost, startHost } from './studioHost.ts';
import { newStudioPage, newTab } from './studioPage.ts';

/** The studio promises two seconds; a busy machine gets more. */
const KEPT_MS = 5000;
const BACK = 'The page was loaded again. Your unsaved work is as it was.';

describe.skipIf(chromiumPath === undefined)('a page loaded again while its program lives', () => {
  let browser: Browser;
  let host: StudioHost;
  let page: Page;
  let other: Page;
  beforeAll(async () => {
    browser = await launch();
    host = await startHost();
    ({ page } = await newStudioPage(browser));
    ({ page: other } = await newTab(page.context()));
    for (const tab of [page, other]) await tab.goto(host.address);
  });
  afterAll(async () => {
    await browser?.close();
    host?.stop();
  });

  test('shows the same unsaved job, art and all, at the same station and face', async () => {
    await page.getByRole('button', { name: /Look at the demo/ }).click();
    await page.locator('.pull').first().waitFor();
    await settled(page);
    await page.getByRole('button', { name: /turns the board over/ }).click();
    await station(page, 'Press');
    await page.getByRole('textbox', { name: 'Shop' }).fill('Shed number ten');
    await page.getByRole('textbox', { name: 'Shop' }).blur();
    await page.waitForTimeout(KEPT_MS);
    await page.reload();
    await page.getByText(BACK).waitFor();
    expect(await page.getByRole('textbox', { name: 'Shop' }).inputValue()).toBe('Shed number ten');
    expect(await page.getByRole('button', { name: /top face is shown/ }).count()).toBe(1);
    expect(await page.locator('.file-state').textContent()).toMatch(/not saved yet/);
    await station(page, 'Inks');
    expect(await page.locator('.pull').count()).toBe(2);
  });

  test('another tab of the same program is not offered it and does not write over it', async () => {
    await other.reload();
    await other.getByRole('button', { name: /Start from a deck/ }).waitFor();
    expect(await other.getByRole('button', { name: 'Open it again' }).count()).toBe(0);
    await other.getByRole('button', { name: /Start from a deck/ }).click();
    await other.getByLabel('Job name').fill('Another job');
    await other.waitForTimeout(KEPT_MS);
    for (const [tab, name] of [
      [page, 'Night Heron'],
      [other, 'Another job'],
    ] as const) {
      await tab.reload();
      await tab.getByText(BACK).waitFor();
      expect(await tab.getByLabel('Job name').inputValue()).toMatch(name);
    }
  });

  test('after the program itself was killed, the work is offered', async () => {
    await host.crash();
    host = await startHost(host.state);
    await other.goto(host.address);
    await other.getByRole('button', { name: 'Open it again' }).click();
    await other.getByRole('navigation', { name: 'Stations' }).waitFor();
    expect(await other.getByLabel('Job name').inputValue()).toMatch(/Night Heron|Another job/);
  });
});
