import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { deckTemplate, truckHoles } from '../../core/deck/index.ts';
import { photograph, pinhole } from '../core/deck/photograph.ts';
import { settled, station } from './board.ts';
import { chromiumPath, launch } from './chromium.ts';
import { type StudioHost, startHost } from './studioHost.ts';
import { newStudioPage } from './studioPage.ts';

/** Where screenshots of the dialogue go when someone wants to look at them. */
const LOOK = process.env['KICKFLAT_LOOK'];

describe.skipIf(chromiumPath === undefined)('tracing a photographed deck in the studio', () => {
  let browser: Browser;
  let host: StudioHost;
  let page: Page;
  let dir: string;
  let trouble: string[];
  beforeAll(async () => {
    dir = mkdtempSync(join(tmpdir(), 'kickflat-trace-'));
    browser = await launch();
    host = await startHost();
    ({ page, trouble } = await newStudioPage(browser));
  });
  afterAll(async () => {
    await browser?.close();
    host?.stop();
    rmSync(dir, { recursive: true, force: true });
  });

  test('holes clicked carelessly settle, the residual is shown, and the outline is taken and undone', async () => {
    // A wider deck than the bench's own, seen askew: its measures can only have come from the picture.
    const wide = deckTemplate('popsicle-8.75');
    if (!wide) throw new Error('A template is missing.');
    const view = pinhole([150, -300, 1500], [0, 5, 0], 0.03, 2700, [1000, 420]);
    const scene = {
      width: 2000,
      height: 840,
      wood: [220, 186, 136],
      ground: [48, 52, 58],
      hole: [20, 16, 14],
      shade: 0.3,
      noise: 3,
    } as const;
    const picture = photograph(wide, 'bottom', view, false, scene);
    const file = join(dir, 'my-deck.png');
    const raw = { width: picture.width, height: picture.height, channels: 4 as const };
    await sharp(picture.data, { raw }).png().toFile(file);

    await page.goto(host.address);
    await page.getByRole('button', { name: /Look at the demo/ }).click();
    await page.locator('.pull').first().waitFor();
    await station(page, 'Deck');
    await settled(page);
    const chooser = page.waitForEvent('filechooser');
    await page.getByRole('button', { name: 'Choose a picture …' }).click();
    await (await chooser).setFiles(file);
    const dialog = page.getByRole('dialog', { name: 'Trace a photograph' });
    await dialog.locator('.trace-line').waitFor();
    expect(await dialog.textContent()).toContain('8 truck holes are still to be clicked.');
    expect(await dialog.getByRole('button', { name: 'Take this outline' }).isDisabled()).toBe(true);

    const frame = dialog.locator('.trace-picture');
    const box = (await frame.boundingBox())!;
    const holes = truckHoles(wide, 'bottom');
    for (const [k, i] of [3, 0, 7, 5, 1, 6, 2, 4].entries()) {
      const [x, y] = view(holes[i]!.x, holes[i]!.y, 0);
      // A careless hand: a px or so beside the middle on screen.
      const off = [1, -1, 0.6][k % 3]!;
      await page.mouse.click(
        box.x + (x / scene.width) * box.width + off,
        box.y + (y / scene.height) * box.height - off,
      );
    }
    // Its wheelbase is not the bench's: measured on the wood, and typed in.
    const wheelbase = dialog.getByLabel('Wheelbase, inner holes');
    await wheelbase.fill(String(wide.wheelbase));
    await wheelbase.blur();
    const residual = Number(
      await dialog
        .locator('.measure', { hasText: 'off, on average' })
        .locator('.measure-value')
        .textContent()
        .then((t) => (t ?? '').replace(/[^\d.]/g, '')),
    );
    expect(residual).toBeLessThan(0.1);
    if (LOOK) await page.screenshot({ path: join(LOOK, 'trace-dialog.png') });
    await dialog.getByRole('button', { name: 'Take this outline' }).click();
    await dialog.waitFor({ state: 'detached' });
    const width = page.getByLabel('Width, rail to rail');
    expect(Math.abs(Number(await width.inputValue()) - wide.width)).toBeLessThan(0.3);
    expect(
      Math.abs(Number(await page.getByLabel('Nose, from outer holes').inputValue()) - wide.noseLength),
    ).toBeLessThan(0.3);
    await settled(page);
    if (LOOK) await page.screenshot({ path: join(LOOK, 'trace-taken.png') });
    await page.getByRole('button', { name: 'Undo: Take outline of my-deck.png' }).click();
    expect(Number(await width.inputValue())).toBeCloseTo(209.55, 2);
    expect(trouble).toEqual([]);
  });

  test('an outline drawn elsewhere is taken at its true size; an open one is refused with a sentence', async () => {
    const file = (d: string) => ({
      name: 'own.svg',
      mimeType: 'image/svg+xml',
      buffer: Buffer.from(
        `<svg xmlns="http://www.w3.org/2000/svg" width="800mm" height="200mm" viewBox="0 0 800 200"><path fill="none" d="${d}"/></svg>`,
      ),
    });
    const input = page.getByLabel('Outline file');
    const ends = 'M100 4H700A96 96 0 0 1 700 196H100A96 96 0 0 1 100 4';
    await input.setInputFiles(file(`${ends}Z`));
    const width = page.getByLabel('Width, rail to rail');
    await page.getByRole('button', { name: 'Undo: Take own.svg' }).waitFor();
    expect(Number(await width.inputValue())).toBeCloseTo(192, 1);
    expect(await page.locator('.lengths dd').first().textContent()).toBe('792 mm');
    await page.getByRole('button', { name: 'Undo: Take own.svg' }).click();
    await input.setInputFiles(file('M100 4H700L720 196H100'));
    await page
      .getByText(/outline is open/i)
      .first()
      .waitFor();
    expect(Number(await width.inputValue())).toBeCloseTo(209.55, 2);
    expect(trouble).toEqual([]);
  });
});
