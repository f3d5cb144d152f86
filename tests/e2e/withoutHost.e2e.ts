import type { Server } from 'node:http';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { unpackJob } from '../../core/job/index.ts';
import { apart, boardColour, settled, station } from './board.ts';
import { chromiumPath, launch } from './chromium.ts';
import { openStudio, servePage } from './pageServer.ts';

/** A picture the studio has never seen: three flat colours and clear ground, drawn in the page and dropped as a file. */
const dropPicture = (page: Page) =>
  page.evaluate(async () => {
    const canvas = document.createElement('canvas');
    canvas.width = 1600;
    canvas.height = 400;
    const ctx = canvas.getContext('2d')!;
    for (const [hex, x] of [
      ['#d7263d', 200],
      ['#1b998b', 700],
      ['#2e294e', 1200],
    ] as const) {
      ctx.fillStyle = hex;
      ctx.fillRect(x, 60, 260, 280);
    }
    const blob = await new Promise<Blob>((done) => canvas.toBlob((b) => done(b!), 'image/png'));
    const transfer = new DataTransfer();
    transfer.items.add(new File([blob], 'three-blocks.png', { type: 'image/png' }));
    const to = document.querySelector('.window')!;
    for (const type of ['dragover', 'drop'])
      to.dispatchEvent(new DragEvent(type, { dataTransfer: transfer, bubbles: true, cancelable: true }));
  });

/** The job that was last saved, as the saved file holds it. */
const savedJob = async (page: Page) => {
  const bytes = await page.evaluate(() => [
    ...(globalThis as unknown as { host: { saved: { bytes: Uint8Array }[] } }).host.saved.at(-1)!.bytes,
  ]);
  const file = unpackJob(Uint8Array.from(bytes));
  if (!file.ok) throw new Error(file.reason);
  return file.value.job;
};
const save = async (page: Page) => {
  await page.keyboard.press('Control+s');
  await page
    .getByText(/^Saved as/)
    .first()
    .waitFor();
};

describe.skipIf(chromiumPath === undefined)('the studio in a browser, its host played by the page', () => {
  let browser: Browser;
  let server: Server;
  let address: string;
  beforeAll(async () => {
    browser = await launch();
    ({ address, server } = await servePage());
  });
  afterAll(async () => {
    await browser?.close();
    server?.close();
  });
  const demoStudio = async () => {
    const opened = await openStudio(browser, address);
    await opened.page.getByRole('button', { name: /Look at the demo/ }).click();
    await opened.page.getByRole('navigation', { name: 'Stations' }).waitFor();
    await opened.page.locator('.pull').first().waitFor();
    await settled(opened.page);
    return opened;
  };

  test('a job can be saved before its art is drawn, and nothing of it is missing', async () => {
    const { page, trouble } = await openStudio(browser, address);
    await page.evaluate(() => {
      (globalThis as unknown as { host: { decodeMs: number } }).host.decodeMs = 6000;
    });
    await page.getByRole('button', { name: /Look at the demo/ }).click();
    await page.getByRole('navigation', { name: 'Stations' }).waitFor();
    await save(page);
    const { faces } = await savedJob(page);
    expect([...faces.bottom.art, ...faces.top.art].map((piece) => piece.name)).toHaveLength(2);
    expect(trouble).toEqual([]);
  });

  test('films are planned once all art was tried, also where it can not be drawn', async () => {
    const { page } = await openStudio(browser, address);
    await page.evaluate(() => {
      Object.assign((globalThis as unknown as { host: object }).host, {
        decodeMs: 1500,
        undecoded: 'It can not be drawn.',
      });
    });
    await page.getByRole('button', { name: /Look at the demo/ }).click();
    await station(page, 'Films');
    await page.getByText('It can not be drawn.').first().waitFor();
    await page.getByText('films, one an ink').waitFor();
    await page.getByText('sheets to print').waitFor();
  });

  test('a disk that keeps no unsaved work is told of once, with what to do', async () => {
    const { page, trouble } = await demoStudio();
    await page.evaluate(() => {
      (globalThis as unknown as { host: { unkept: string } }).host.unkept = 'The disk is full.';
    });
    const notice = page.getByText('Unsaved work is not being kept: The disk is full.');
    await page.getByLabel('Job name').fill('Heron by night');
    await page.getByLabel('Job name').blur();
    await notice.waitFor();
    expect(await page.getByText('Save the job now, on another disk if this one is full.').count()).toBe(1);
    // Saving itself is another disk's matter, and still works.
    await save(page);
    expect((await savedJob(page)).name).toBe('Heron by night');
    expect(trouble).toEqual([]);
  });

  test('the demo opens in one action, with its five pulls and a proof of every deck of the run', async () => {
    const { page, trouble } = await demoStudio();
    expect(await page.locator('.pull b').allTextContents()).toEqual([
      'Base white',
      'Sun yellow',
      'Coral',
      'Sea green',
      'Night blue',
    ]);
    // Four veneers in two colourways.
    expect(await page.locator('.run-grid button').count()).toBe(8);
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  test('another veneer shows on the deck', async () => {
    const { page } = await demoStudio();
    await station(page, 'Deck');
    await station(page, 'Inks');
    await page.getByRole('button', { name: 'Plum stain in Harbour' }).click();
    await settled(page);
    await station(page, 'Deck');
    // Between the truck holes of the bare deck: the plum stain of the scenario, with a little grain over it.
    const plum = await boardColour(page, 0.5, 0.36);
    expect(apart(plum, '#6e4058')).toBeLessThan(40);
    await page.context().close();
  });

  test('a pull moved by its arrow, undone and redone by name, is what the file holds', async () => {
    const { page } = await demoStudio();
    await page.getByRole('button', { name: 'Pull Coral earlier' }).click();
    const order = () => page.locator('.pull b').allTextContents();
    expect((await order()).slice(1, 3)).toEqual(['Coral', 'Sun yellow']);
    await page.getByRole('button', { name: 'Undo: Reorder pulls' }).click();
    expect((await order()).slice(1, 3)).toEqual(['Sun yellow', 'Coral']);
    await page.getByRole('button', { name: 'Redo: Reorder pulls' }).click();
    await save(page);
    expect((await savedJob(page)).faces.bottom.inks.map((i) => i.name)).toEqual([
      'Base white',
      'Coral',
      'Sun yellow',
      'Sea green',
      'Night blue',
    ]);
    await page.context().close();
  });

  test('an ink alone is drawn in its own colour, and its new colour after an edit', async () => {
    const { page, trouble } = await demoStudio();
    await page.getByRole('button', { name: 'Show Coral alone' }).click();
    await page.getByLabel('Colour of Coral').evaluate((el: HTMLInputElement) => {
      Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')!.set!.call(el, '#d94f2b');
      el.dispatchEvent(new Event('input', { bubbles: true }));
    });
    await settled(page);
    await page.waitForFunction(() => {
      const canvas = document.querySelector<HTMLCanvasElement>('.board-frame canvas.lower-canvas')!;
      const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
      let found = 0;
      for (let i = 0; i < data.length; i += 4)
        if (
          Math.abs(data[i]! - 0xd9) < 8 &&
          Math.abs(data[i + 1]! - 0x4f) < 8 &&
          Math.abs(data[i + 2]! - 0x2b) < 8
        )
          found++;
      return found > 500;
    });
    await save(page);
    expect((await savedJob(page)).faces.bottom.inks.find((i) => i.name === 'Coral')?.hex).toBe('#d94f2b');
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  test('dropped art is laid on a deck with its own inks, and takes lengths as people write them', async () => {
    const { page, trouble } = await openStudio(browser, address);
    await page.getByRole('button', { name: /Start from art/ }).waitFor();
    await dropPicture(page);
    await page.locator('.piece').waitFor();
    await settled(page);
    const width = page.getByLabel('Width', { exact: true });
    await width.fill('8 1/4"');
    await width.press('Enter');
    expect(Number(await width.inputValue())).toBeCloseTo(209.55, 2);
    await page.getByLabel('From centreline, up').fill('-12 mm');
    await page.getByLabel('From centreline, up').press('Enter');
    await save(page);
    const job = await savedJob(page);
    const [piece] = job.faces.bottom.art;
    expect(piece!.width).toBeCloseTo(209.55, 3);
    // 1600 × 400 pixels: a quarter as high as it is wide.
    expect(piece!.height).toBeCloseTo(209.55 / 4, 3);
    expect(piece!.y).toBe(-12);
    expect(new Set(job.faces.bottom.inks.map((i) => i.hex))).toEqual(
      new Set(['#d7263d', '#1b998b', '#2e294e']),
    );
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  test('art is dragged on the deck by hand, one undo step a drag, and undo leads back to the empty deck', async () => {
    const { page, trouble } = await openStudio(browser, address);
    await dropPicture(page);
    await page.locator('.piece').waitFor();
    await page.getByRole('button', { name: 'Fit inside' }).click();
    await page.getByLabel('Width', { exact: true }).fill('300');
    await page.getByLabel('Width', { exact: true }).press('Enter');
    const x = async () => Number(await page.getByLabel('From mid-wheelbase, to nose').inputValue());
    const before = await x();
    const frame = (await page.locator('.board-frame').boundingBox())!;
    const middle = { x: frame.x + frame.width / 2, y: frame.y + frame.height / 2 + 8 };
    await page.mouse.move(middle.x, middle.y);
    await page.mouse.down();
    for (let i = 1; i <= 12; i++) await page.mouse.move(middle.x + i * 14, middle.y - i * 2);
    await page.mouse.up();
    expect(await x()).toBeGreaterThan(before + 60);
    await page.getByRole('button', { name: 'Undo: Move art' }).click();
    expect(await x()).toBeCloseTo(before, 3);
    for (let i = 0; i < 8; i++)
      if (await page.getByRole('button', { name: /^Undo: / }).count()) await page.keyboard.press('Control+z');
    await page.getByText('Drop pictures on the deck').waitFor();
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  test('a file that is no picture is refused with a sentence and changes nothing', async () => {
    const { page } = await demoStudio();
    await page.evaluate(() => {
      const transfer = new DataTransfer();
      transfer.items.add(new File(['not a picture'], 'notes.png', { type: 'image/png' }));
      document
        .querySelector('.window')!
        .dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }));
    });
    await page.getByText('“notes.png” is not a picture.').waitFor();
    expect(await page.getByRole('button', { name: 'Nothing to undo', exact: true }).isDisabled()).toBe(true);
    await page.context().close();
  });

  test('films are made with progress in words, can be stopped, and end with a notice', async () => {
    const { page, trouble } = await demoStudio();
    await station(page, 'Films');
    await page.getByRole('button', { name: 'Make films' }).click();
    await page.getByText(/^film \d of 5$/).waitFor();
    await page.getByRole('button', { name: 'Stop' }).click();
    await page.getByText('Stopped before it was finished.').waitFor();
    await page.getByRole('button', { name: 'Make films' }).click();
    await page.getByText(/^Films are ready/).waitFor();
    const exports = await page.evaluate(
      () =>
        (globalThis as unknown as { host: { exports: { faces: string[]; cancelled: boolean }[] } }).host
          .exports,
    );
    expect(exports.map((e) => e.cancelled)).toEqual([true, false]);
    expect(exports[1]!.faces).toEqual(['bottom', 'top']);
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  test('a deck that can not be is refused in one sentence', async () => {
    const { page } = await demoStudio();
    await station(page, 'Deck');
    const depth = page.getByLabel('Depth at the centre');
    await depth.fill('4 in');
    await depth.press('Enter');
    await page.locator('.notice').first().waitFor();
    await page.getByLabel('Width, rail to rail').fill('60mm');
    await page.getByLabel('Width, rail to rail').press('Enter');
    await page.locator('.notice.trouble').first().waitFor();
    await page.context().close();
  });

  test('turned over, the board shows the top face’s own inks; inches are shown as inches', async () => {
    const { page, trouble } = await demoStudio();
    await page.getByRole('button', { name: /turns the board over/ }).click();
    await settled(page);
    expect(await page.locator('.pull b').allTextContents()).toEqual(['Base white', 'Night blue']);
    await page.getByRole('button', { name: /lengths in millimetres/ }).click();
    await station(page, 'Deck');
    expect(Number(await page.getByLabel('Width, rail to rail').inputValue())).toBeCloseTo(8.25, 3);
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  test('the whole way by keyboard: station, pull, order', async () => {
    const { page } = await demoStudio();
    await page.keyboard.press('Alt+3');
    await page.locator('.pull').nth(2).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Pull 3: Coral' }).waitFor();
    await page.getByRole('button', { name: 'Pull Coral later' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Pull 4: Coral' }).waitFor();
    await page.keyboard.press('Alt+5');
    await page.getByRole('heading', { name: 'Films, bottom' }).waitFor();
    await page.context().close();
  });
});
