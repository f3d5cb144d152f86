import type { Server } from 'node:http';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { settled, station } from './board.ts';
import { chromiumPath, launch } from './chromium.ts';
import { demoOnDeck } from './flows.ts';
import { openStudio, servePage } from './pageServer.ts';

describe.skipIf(chromiumPath === undefined)('traps, by keyboard alone', () => {
  let browser: Browser;
  let server: Server;
  let page: Page;
  let trouble: string[];
  beforeAll(async () => {
    browser = await launch();
    const served = await servePage();
    server = served.server;
    ({ page, trouble } = await openStudio(browser, served.address));
    await demoOnDeck(page);
  });
  afterAll(async () => {
    await browser?.close();
    server?.close();
  });

  test('the divider is a slider that arrow keys move', async () => {
    await page.getByRole('button', { name: 'Before | after' }).press('Enter');
    const divider = page.getByRole('slider', { name: 'Art as drawn against what is printed' });
    await divider.press('ArrowRight');
    await divider.press('Shift+ArrowRight');
    expect(await divider.getAttribute('aria-valuenow')).toBe('61');
    await page.getByRole('button', { name: 'Before | after' }).press('Enter');
    expect(await divider.count()).toBe(0);
  });

  test('the loupe is taken up with L, moved with arrow keys, and shows film dots', async () => {
    await page.keyboard.press('Alt+4');
    await settled(page);
    await page.locator('.board-frame').press('l');
    const glass = page.getByRole('application', { name: /^Loupe at/ });
    await page.locator('.loupe-words', { hasText: 'mm across' }).waitFor();
    const before = await glass.getAttribute('aria-label');
    await glass.press('ArrowRight');
    await page.waitForFunction(
      (was) => document.querySelector('.loupe')?.getAttribute('aria-label') !== was,
      before,
    );
    const seen = await page.evaluate(() => {
      const canvas = document.querySelector<HTMLCanvasElement>('.loupe canvas')!;
      const { width, height } = canvas;
      const { data } = canvas.getContext('2d')!.getImageData(width / 2 - 20, height / 2 - 20, 40, 40);
      return data.filter((v, i) => i % 4 === 3 && v === 255).length;
    });
    expect(seen).toBe(1600);
    await glass.press('Escape');
    expect(await glass.count()).toBe(0);
  });

  test('a moved pull is drawn, and put back in register', async () => {
    const along = page.getByRole('slider', { name: /Along, to the nose/ });
    await along.focus();
    for (let i = 0; i < 4; i++) await along.press('ArrowRight');
    await settled(page);
    expect(await along.getAttribute('aria-valuetext')).toBe('0.2 mm nosewards');
    await page.getByRole('button', { name: 'Back in register' }).press('Enter');
    expect(await along.getAttribute('aria-valuetext')).toMatch(/^0 mm/);
  });

  test('trials can be stopped; run whole, they give a width that is taken and undone', async () => {
    await page.getByRole('textbox', { name: 'Trials a width' }).fill('20');
    await page.getByRole('textbox', { name: 'Trials a width' }).press('Enter');
    await page.getByRole('button', { name: 'Try it' }).press('Enter');
    await page.getByRole('button', { name: 'Stop' }).press('Enter');
    await page.getByRole('button', { name: 'Try it' }).press('Enter');
    await page.locator('.gap-plot').waitFor({ timeout: 200_000 });
    const cells = await page.locator('.gap-plot tbody tr').evaluateAll((rows) =>
      rows.map((r) => {
        const text = r.lastElementChild!.textContent!;
        return Number.parseFloat(text) * (text.includes('cm²') ? 100 : 1);
      }),
    );
    expect(cells).toHaveLength(9);
    // Butted inks show more than any trap of at least half a hand's straying.
    expect(cells[0]).toBeGreaterThan(2 * Math.min(...cells.slice(4)));
    await page.getByRole('button', { name: /^Take [\d.]+ mm/ }).press('Enter');
    await page.getByRole('button', { name: 'Undo: Take tried trap' }).press('Enter');
    await station(page, 'Inks');
    expect(trouble).toEqual([]);
  });
});
