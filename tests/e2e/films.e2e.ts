import type { Server } from 'node:http';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { settled, station } from './board.ts';
import { chromiumPath, launch } from './chromium.ts';
import { demoOnDeck } from './flows.ts';
import { openStudio, servePage } from './pageServer.ts';

describe.skipIf(chromiumPath === undefined)('the Films station', () => {
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
    await station(page, 'Films');
    await page.getByLabel('Film sheets').selectOption('a4');
    await page.locator('.films button').nth(2).click();
    await planned();
  });
  afterAll(async () => {
    await browser?.close();
    server?.close();
  });

  const planned = async () => {
    await page.waitForTimeout(400);
    await settled(page);
    await page.locator('.boundaries').waitFor();
  };
  /** Is the nth cut another one within a while? A busy machine gets ten seconds. */
  const cutChanged = (n: number, before: string) =>
    page
      .waitForFunction(
        ([i, was]) =>
          document.querySelectorAll('.boundaries polyline')[i as number]?.getAttribute('points') !== was,
        [n, before] as const,
        { timeout: 10_000 },
      )
      .then(
        () => true,
        () => false,
      );
  const cutsBecome = (lines: readonly (string | null)[]) =>
    page.waitForFunction(
      (want) =>
        [...document.querySelectorAll('.boundaries polyline')].map((l) => l.getAttribute('points')).join() ===
        want,
      lines.join(),
    );
  /** The way the second boundary is free to go: a sheet as long as it may be gives way to one side only. */
  let way = 0;
  const slider = (i: number) => page.locator('.boundaries [role=slider]').nth(i);
  const place = async (i: number) => Number(await slider(i).getAttribute('aria-valuenow'));
  const cuts = () =>
    page.locator('.boundaries polyline').evaluateAll((lines) => lines.map((l) => l.getAttribute('points')));
  const counted = async (label: RegExp) =>
    Number(
      await page.locator('.measure', { hasText: label }).locator('.measure-value').first().textContent(),
    );

  test('a film of five sheets has four cuts, and the crossings of all films are told once each', async () => {
    expect(await page.locator('.boundaries rect[fill=currentColor]').count()).toBe(5);
    expect((await cuts()).length).toBe(4);
    let told = 0;
    for (let i = 0; i < 5; i++) {
      await page.locator('.films button').nth(i).click();
      const hint = await page.locator('.boundaries + .hint').textContent();
      told += Number(/(\d+) places where cuts cross ink/.exec(hint!)![1]);
      expect(await page.locator('.boundaries circle').count()).toBe(
        Number(/(\d+) places where cuts cross ink/.exec(hint!)![1]),
      );
    }
    expect(await counted(/touch up/)).toBe(told);
    await page.locator('.films button').nth(2).click();
  });

  test('a boundary moved by the arrow keys finds its cut anew, leaves those beyond as they were, and is undone', async () => {
    const [before, was] = [await cuts(), await place(1)];
    for (const [key, sign] of [
      ['ArrowRight', 1],
      ['ArrowLeft', -1],
    ] as const) {
      if (way !== 0) continue;
      await slider(1).press(key);
      await slider(1).press(key);
      await slider(1).press(key);
      if (await cutChanged(1, before[1]!)) way = sign;
    }
    expect(way).not.toBe(0);
    const after = await cuts();
    expect(Math.sign((await place(1)) - was)).toBe(way);
    // The next one may have to give way, since no sheet gets longer than the printer takes; those beyond stay.
    expect([after[0], after[3]]).toEqual([before[0], before[3]]);
    while ((await page.getByRole('button', { name: 'Undo: Move a sheet boundary' }).count()) > 0)
      await page.getByRole('button', { name: 'Undo: Move a sheet boundary' }).click();
    await cutsBecome(before);
  });

  test('a boundary dragged by the pointer stands where it was let go, and is given back', async () => {
    const [before, was] = [await cuts(), await place(1)];
    const box = (await slider(1).boundingBox())!;
    const [x, y] = [box.x + box.width * 0.25, box.y + box.height / 2];
    const film = (await page.locator('.boundaries').boundingBox())!;
    const perMm =
      film.width / Number((await page.locator('.boundaries').getAttribute('viewBox'))!.split(' ')[2]);
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let i = 1; i <= 3; i++) await page.mouse.move(x + way * i * perMm, y);
    await page.mouse.up();
    expect(await cutChanged(1, before[1]!)).toBe(true);
    await planned();
    // Taken hold of beside its middle, by five millimetres, it does not jump there.
    expect(Math.abs((await place(1)) - (was + way * 3))).toBeLessThanOrEqual(1);
    await page.getByRole('button', { name: 'Let Kickflat choose' }).click();
    await cutsBecome(before);
    expect(await page.getByRole('button', { name: 'Let Kickflat choose' }).count()).toBe(0);
  });

  test('a boundary taken hold of on the deck itself moves as far as the hand, its cut and the counts with it', async () => {
    const [before, was, touched] = [await cuts(), await place(1), await counted(/touch up/)];
    const at = (await page.locator('.board-frame').boundingBox())!;
    // The strip is found as a hand finds it: where the pointer turns into one that moves sideways.
    const y = at.y + at.height / 2;
    const strips: number[] = [];
    let inside = false;
    for (let x = at.x + 60; x < at.x + at.width - 60; x += 3) {
      await page.mouse.move(x, y);
      const over = (await page.locator('.board-frame.over-boundary').count()) > 0;
      if (over && !inside) strips.push(x + 6);
      inside = over;
    }
    expect(strips.length).toBe(4);
    await page.mouse.move(strips[1]!, y);
    await page.mouse.down();
    for (let i = 1; i <= 4; i++) await page.mouse.move(strips[1]! + way * 2 * i, y);
    await page.mouse.up();
    expect(await cutChanged(1, before[1]!)).toBe(true);
    await planned();
    // The deck is 838 mm long here on less than 1440 points: 8 points are 5 mm and more.
    expect((await place(1)) - was).not.toBe(0);
    expect(Math.sign((await place(1)) - was)).toBe(way);
    expect(Math.abs((await place(1)) - was)).toBeGreaterThan(3);
    expect(Math.abs((await place(1)) - was)).toBeLessThan(12);
    await page.getByRole('button', { name: 'Undo: Move a sheet boundary' }).click();
    await cutsBecome(before);
    expect(await counted(/touch up/)).toBe(touched);
  });

  test('a moved boundary finds its cut while the thread of check and fine proofs takes no more work', async () => {
    // Threads are known by what they are asked for: the one that was asked for a check gets nothing from now on.
    await page.evaluate(() => {
      const post = Worker.prototype.postMessage;
      const checks = new Set<Worker>();
      const kept: (() => void)[] = [];
      Object.assign(globalThis, { hold: false, checks, release: () => kept.splice(0).map((send) => send()) });
      Worker.prototype.postMessage = function (this: Worker, ...given: Parameters<Worker['postMessage']>) {
        if ((given[0] as { path?: string[] }).path?.[0] === 'check') checks.add(this);
        const held = (globalThis as unknown as { hold: boolean }).hold && checks.has(this);
        if (held) kept.push(() => post.apply(this, given));
        else post.apply(this, given);
      } as Worker['postMessage'];
    });
    const before = await cuts();
    await page.getByLabel('Mirror the films').click();
    await page.waitForFunction(() => (globalThis as unknown as { checks: Set<Worker> }).checks.size === 1);
    await planned();
    await page.evaluate(() => Object.assign(globalThis, { hold: true }));
    await slider(1).press(way > 0 ? 'ArrowRight' : 'ArrowLeft');
    expect(await cutChanged(1, before[1]!)).toBe(true);
    await page.getByRole('button', { name: 'Undo: Move a sheet boundary' }).click();
    await cutsBecome(before);
    await page.evaluate(() =>
      (Object.assign(globalThis, { hold: false }) as unknown as { release: () => void }).release(),
    );
    await page.getByRole('button', { name: 'Undo: Change mirror' }).click();
    await planned();
  });

  test('the loupe shows the chosen film in its own dots: toner or bare film, nothing between', async () => {
    await page.locator('.board-frame').press('l');
    await page.locator('.loupe-words', { hasText: 'mm across' }).waitFor();
    const shades = await page.evaluate(() => {
      const canvas = document.querySelector<HTMLCanvasElement>('.loupe canvas')!;
      const { width, height } = canvas;
      const { data } = canvas.getContext('2d')!.getImageData(width / 2 - 60, height / 2 - 60, 120, 120);
      const seen = new Set<string>();
      for (let i = 0; i < data.length; i += 4)
        seen.add(data[i + 3] === 0 ? 'bare' : [data[i], data[i + 1], data[i + 2], data[i + 3]].join());
      return [...seen];
    });
    expect(shades.length).toBeLessThanOrEqual(2);
    await page.keyboard.press('Escape');
  });

  test('small films share a sheet when they may', async () => {
    await page.getByRole('button', { name: /turns? the board over/ }).click();
    await page.getByRole('heading', { name: 'Films, top' }).waitFor();
    await page.waitForTimeout(600);
    await settled(page);
    await page.getByLabel('Film sheets').selectOption('a3');
    await page.waitForTimeout(800);
    await settled(page);
    const before = await counted(/sheets to print/);
    await page.getByLabel('Small films share a sheet').check();
    await page.waitForTimeout(800);
    await settled(page);
    expect(await counted(/sheets to print/)).toBeLessThan(before);
    expect(trouble).toEqual([]);
  });
});
