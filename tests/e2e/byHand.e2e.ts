import type { Server } from 'node:http';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { boardColour, settled } from './board.ts';
import { chromiumPath, launch } from './chromium.ts';
import { demoOnDeck } from './flows.ts';
import { openStudio, servePage } from './pageServer.ts';

/** A proof follows at once on a machine at rest, later on a busy one. */
const SOON = { timeout: 60_000, interval: 300 };
const rgb = (hex: string) =>
  [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16)) as [number, number, number];
/** An ink as it shows over the base is paler than its own colour; its hue tells it. */
const isGreen = (hex: string) => {
  const [r, g] = rgb(hex);
  return g > r + 40;
};
const isCoral = (hex: string) => {
  const [r, g, b] = rgb(hex);
  return r > g + 80 && r > b + 80;
};

describe.skipIf(chromiumPath === undefined)('inks given by hand, on the deck', () => {
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
  const board = () => page.locator('.board-frame');
  const area = async (pull: number): Promise<number> => {
    const text = await page.locator('.pull').nth(pull).locator('small').textContent();
    return Number(/([\d.]+) cm²/.exec(text ?? '')?.[1]);
  };

  /** A place of the board, as shares of its frame, that shows such a colour, all about it too. */
  const findColour = async (such: (hex: string) => boolean): Promise<readonly [number, number]> => {
    for (let x = 0.15; x < 0.42; x += 0.01)
      for (let y = 0.3; y < 0.7; y += 0.02) {
        const about = [
          boardColour(page, x, y),
          boardColour(page, x + 0.003, y),
          boardColour(page, x, y + 0.005),
        ];
        if ((await Promise.all(about)).every(such)) return [x, y];
      }
    throw new Error('The deck shows no such colour.');
  };

  test('a region drawn by the mouse goes to its ink, and undo takes it back by name', async () => {
    const before = { cm2: await area(2) };
    expect(isCoral(await boardColour(page, 0.5, 0.5))).toBe(false);
    await page.getByRole('button', { name: 'Draw round' }).click();
    await page.getByLabel('Give it to').selectOption({ label: 'Coral' });
    await page.getByLabel('What changes').selectOption({ label: 'Everything' });
    const box = (await board().boundingBox())!;
    const at = (x: number, y: number) => [box.x + x * box.width, box.y + y * box.height] as const;
    await page.mouse.move(...at(0.44, 0.42));
    await page.mouse.down();
    for (const [x, y] of [
      [0.5, 0.42],
      [0.56, 0.42],
      [0.56, 0.6],
      [0.5, 0.6],
      [0.44, 0.6],
    ] as const)
      await page.mouse.move(...at(x, y), { steps: 4 });
    await page.mouse.up();
    await settled(page);
    await page.getByRole('list', { name: 'Regions given by hand' }).getByText('to Coral').waitFor();
    await page.mouse.move(...at(0.02, 0.02));
    await expect.poll(() => boardColour(page, 0.5, 0.5).then(isCoral), SOON).toBe(true);
    await page.waitForFunction((was) => {
      const text = document.querySelectorAll('.pull')[2]?.querySelector('small')?.textContent ?? '';
      return Number(/([\d.]+) cm²/.exec(text)?.[1]) > was + 20;
    }, before.cm2);
    await page.getByRole('button', { name: 'Undo: Region to Coral' }).click();
    await settled(page);
    expect(await page.getByRole('list', { name: 'Regions given by hand' }).count()).toBe(0);
    await page.getByRole('button', { name: 'Redo: Region to Coral' }).click();
    await page.getByRole('list', { name: 'Regions given by hand' }).waitFor();
  });

  test('the brush works by keys alone', async () => {
    const hands = page.getByRole('list', { name: 'Regions given by hand' }).getByRole('listitem');
    await board().press('b');
    await page.getByLabel('Give it to').selectOption({ label: 'Bare wood' });
    await board().focus();
    await settled(page);
    for (let i = 0; i < 3; i++) await page.keyboard.press('Shift+ArrowLeft');
    await page.keyboard.press('Space');
    for (let i = 0; i < 4; i++) await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Space');
    await page.getByText('Brush: everything to bare wood').waitFor();
    expect(await hands.count()).toBe(2);
    await page.keyboard.press('Escape');
    expect(await page.getByRole('button', { name: 'Brush', exact: true }).getAttribute('aria-pressed')).toBe(
      'false',
    );
    await page.getByRole('button', { name: 'Undo: Brush to bare wood' }).click();
    expect(await hands.count()).toBe(1);
  });

  test('a picked colour is given to another ink and protected', async () => {
    await settled(page);
    const [x, y] = await findColour(isCoral);
    await page.getByRole('button', { name: 'Pick a colour' }).click();
    const box = (await board().boundingBox())!;
    await page.mouse.click(box.x + x * box.width, box.y + y * box.height);
    const prints = page.locator('.picked select');
    expect(await prints.locator('option:checked').textContent()).toBe('Coral');
    await prints.selectOption({ label: 'Sea green' });
    await settled(page);
    await page.mouse.move(box.x + 4, box.y + 4);
    await expect.poll(() => boardColour(page, x, y).then(isGreen), SOON).toBe(true);
    const list = page.getByRole('list', { name: 'Colours given by hand' });
    expect(await list.getByRole('combobox').locator('option:checked').textContent()).toBe('Sea green');
    await page.getByRole('button', { name: 'Protect', exact: true }).click();
    expect(await page.locator('.picked button').textContent()).toContain('Protected');
    await page.keyboard.press('Escape');
  });

  test('two inks are merged, and everything by hand is undone in one step', async () => {
    await page.locator('.pull').nth(1).click();
    await page.getByLabel('Merge it into another ink: one screen less').selectOption({ label: 'Coral' });
    expect(await page.locator('.pull').count()).toBe(4);
    await page.getByRole('button', { name: 'Undo: Merge Sun yellow into Coral' }).click();
    expect(await page.locator('.pull').count()).toBe(5);
    await page.getByRole('button', { name: 'Undo all by hand' }).click();
    expect(await page.getByRole('list', { name: 'Regions given by hand' }).count()).toBe(0);
    expect(await page.getByRole('list', { name: 'Colours given by hand' }).count()).toBe(0);
    await page.getByRole('button', { name: 'Undo: Undo all by hand' }).waitFor();
    await settled(page);
    expect(trouble).toEqual([]);
  });
});
