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

  test('a pair chosen in the table is hatched alone, close by, and gone to place by place', async () => {
    const picture = () =>
      page.evaluate(() =>
        document.querySelector<HTMLCanvasElement>('.board-frame canvas.lower-canvas')!.toDataURL(),
      );
    const row = page.getByRole('button', { name: 'Show Coral under Night blue alone on the deck' });
    await row.press('Enter');
    await page.getByText(/Place 1 of \d+/).waitFor();
    await settled(page);
    expect(await row.getAttribute('aria-pressed')).toBe('true');
    expect(await page.getByRole('button', { name: '140.0 px/cm' }).count()).toBe(1);
    const alone = await picture();
    // The hatch is there: coral strokes on the pale ground that no ink and no wood of this deck has.
    const ground = await page.evaluate(() => {
      const canvas = document.querySelector<HTMLCanvasElement>('.board-frame canvas.lower-canvas')!;
      const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
      let [pale, coral] = [0, 0];
      for (let i = 0; i < data.length; i += 4) {
        if (data[i] === 0xff && data[i + 1] === 0xfa && data[i + 2] === 0xf0) pale++;
        if (data[i] === 0xe8 && data[i + 1] === 0x61 && data[i + 2] === 0x3c) coral++;
      }
      return { pale, coral };
    });
    expect(ground.pale).toBeGreaterThan(300);
    expect(ground.coral).toBeGreaterThan(300);
    await page.getByRole('button', { name: 'Next place' }).press('Enter');
    await page.getByText(/Place 2 of \d+/).waitFor();
    await settled(page);
    expect(await picture()).not.toBe(alone);
    await page.getByRole('button', { name: 'Show all' }).press('Enter');
    await settled(page);
    expect(await row.getAttribute('aria-pressed')).toBe('false');
    expect(await page.locator('.hatch').count()).toBe(5);
  });

  test('readings of printed decks teach the register that the trials then use', async () => {
    const card = page.locator('.card', {
      has: page.getByRole('heading', { name: 'How far your pulls stray' }),
    });
    for (const along of ['0.1', '0.3']) {
      await card.getByRole('textbox', { name: 'To the nose +' }).fill(along);
      await card.getByRole('textbox', { name: 'To the nose +' }).press('Enter');
      await card.getByRole('button', { name: 'Write down' }).press('Enter');
    }
    // 0.1 either side of the mean, widened by √2, to a hundredth upwards.
    await card.getByRole('button', { name: /^Reckon with 0.15 mm/ }).press('Enter');
    const stray = page.getByRole('textbox', { name: 'Your pulls stray by up to' });
    expect(await stray.inputValue()).toBe('0.15');
    await page.getByRole('button', { name: 'Undo: Take register from the log' }).press('Enter');
    expect(await stray.inputValue()).toBe('0.5');
  });

  test('a number entered and left within one frame is the number', async () => {
    await page.keyboard.press('Alt+4');
    const box = page.getByRole('textbox', { name: 'To the nose +' });
    await box.evaluate(async (input: HTMLInputElement) => {
      input.focus();
      // Typed as a hand types, so that the box hears of it.
      Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')!.set!.call(input, '0.7');
      input.dispatchEvent(new Event('input', { bubbles: true }));
      input.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true }));
      // What the key did is drawn before this task ends, what follows from the drawing is not.
      for (let i = 0; i < 10; i++) await null;
      input.blur();
    });
    expect(await box.inputValue()).toBe('0.7');
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
