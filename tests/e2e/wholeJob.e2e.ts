import { readFileSync } from 'node:fs';
import { unzipSync } from 'fflate';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { canonicalJson, type Job, unpackJob } from '../../core/job/index.ts';
import { settled, station } from './board.ts';
import { chromiumPath, launch } from './chromium.ts';
import { type StudioHost, startHost } from './studioHost.ts';
import { newStudioPage } from './studioPage.ts';

/** Drawings of our own: a harbour in five flat colours, and a buoy in two for the top. */
const HARBOUR =
  '<svg xmlns="http://www.w3.org/2000/svg" width="840" height="220" viewBox="0 0 840 220"><path fill="#f4e9d2" d="M0 0h840v220H0z"/><path fill="#23466b" d="M0 150q105-40 210 0t210 0 210 0 210 0v70H0z"/><circle cx="600" cy="70" r="46" fill="#f2b632"/><path d="M380 150l20-96h40l20 96z" fill="#d8452b"/><path d="M120 150l30-70 60 70z" fill="#2f8f83"/></svg>';
const BUOY =
  '<svg xmlns="http://www.w3.org/2000/svg" width="300" height="200" viewBox="0 0 300 200"><path d="M0 140h300v60H0z" fill="#23466b"/><path d="M110 140l20-90h40l20 90z" fill="#d8452b"/></svg>';

/** The studio promises two seconds; a busy machine gets more. */
const KEPT_MS = 5000;

/** The whole of a job in one go, by one who drops art and prints. */
describe.skipIf(chromiumPath === undefined)('a whole job in the studio', () => {
  let browser: Browser;
  let host: StudioHost;
  let page: Page;
  let trouble: string[];
  beforeAll(async () => {
    browser = await launch();
    host = await startHost();
    ({ page, trouble } = await newStudioPage(browser, { patience: 120_000 }));
    await page.goto(host.address);
    await page.getByRole('button', { name: /Start from art/ }).waitFor();
  });
  afterAll(async () => {
    await browser?.close();
    host?.stop();
  });

  const drop = (svg: string, name: string) =>
    page.evaluate(
      ([text, file]) => {
        const transfer = new DataTransfer();
        transfer.items.add(new File([text as string], file as string, { type: 'image/svg+xml' }));
        document
          .querySelector('.window')!
          .dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }));
      },
      [svg, name],
    );
  const card = (title: string | RegExp) =>
    page.locator('.card', { has: page.getByRole('heading', { name: title }) });
  const type = async (label: string, text: string) => {
    const field = page.getByLabel(label, { exact: true });
    await field.fill(text);
    await field.press('Enter');
  };
  const pulls = () => page.locator('.pull b').allTextContents();
  /** The job as a save hands it out. */
  async function saved(): Promise<Job> {
    const coming = page.waitForEvent('download');
    await page.keyboard.press('Control+Shift+s');
    const file = unpackJob(new Uint8Array(readFileSync(await (await coming).path())));
    if (!file.ok) throw new Error(file.reason);
    return file.value.job;
  }
  let whole: Job;

  test('art dropped on the empty studio is on the deck, and five suggested inks are taken and edited', async () => {
    await drop(HARBOUR, 'harbour.svg');
    await page.locator('.piece').waitFor();
    await settled(page);
    await station(page, 'Inks');
    const suggested = card('Inks in the art');
    await suggested.getByRole('button', { name: '5', exact: true }).click();
    await suggested.getByRole('button', { name: 'Use these 5' }).click();
    await settled(page);
    expect(await page.locator('.pull').count()).toBe(5);
    await page.locator('.pull').nth(1).click();
    await type('Name', 'Harbour sun');
    const before = await pulls();
    expect(before[1]).toBe('Harbour sun');
    await page.getByRole('button', { name: 'Pull Harbour sun later' }).click();
    await settled(page);
    expect(await pulls()).toEqual([before[0], before[2], 'Harbour sun', before[3], before[4]]);
  });

  test('the other face takes its own art and inks', async () => {
    await page.getByRole('button', { name: /turns the board over/ }).click();
    await settled(page);
    await drop(BUOY, 'buoy.svg');
    await page.locator('.piece', { hasText: 'buoy.svg' }).waitFor();
    await settled(page);
    await station(page, 'Inks');
    await page.locator('.pull').nth(1).waitFor();
    expect(await page.locator('.pull').count()).toBe(2);
    await page.getByRole('button', { name: /turns? the board over/ }).click();
    await page.locator('.pull').nth(4).waitFor();
    await settled(page);
  });

  test('traps are widened and a pair is looked at close by', async () => {
    await station(page, 'Traps');
    await settled(page);
    await type('Trap, light under dark', '0.6');
    await settled(page);
    const row = page.getByRole('button', { name: /^Show .* alone on the deck$/ }).first();
    await row.click();
    await page.getByText(/Place 1 of \d+/).waitFor();
    await settled(page);
    await page.getByRole('button', { name: 'Show all' }).click();
    await page.locator('.zoom-fit').click();
  });

  test('sheets are cut again where a hand wants them', async () => {
    await station(page, 'Films');
    await page.getByLabel('Film sheets').selectOption('a4');
    await settled(page);
    await page.locator('.boundaries [role=slider]').first().waitFor();
    const sliders = page.locator('.boundaries [role=slider]');
    for (const key of ['ArrowRight', 'ArrowLeft', 'ArrowLeft']) await sliders.nth(1).press(key);
    await page.getByRole('button', { name: 'Undo: Move a sheet boundary' }).waitFor();
    await settled(page);
  });

  test('readings of a test print give a correction, which is written down', async () => {
    await station(page, 'Press');
    const register = card(/^Register/);
    const rows = register.locator('.readings tbody tr');
    await rows.first().waitFor();
    for (let i = 0; i < (await rows.count()); i++)
      for (const [column, value] of [
        [1, '0.4'],
        [2, '0'],
      ] as const) {
        const cell = rows.nth(i).locator('td').nth(column);
        if ((await cell.getByRole('switch').count()) === 0) continue;
        await cell.locator('label.toggle').click();
        const box = cell.locator('input:not([type=checkbox])');
        await box.fill(value);
        await box.press('Enter');
      }
    await register.getByRole('button', { name: 'Moved: write it down' }).click();
    await register.locator('.steps-list li').first().waitFor();
  });

  test('films of both faces are made of it', async () => {
    await station(page, 'Films');
    await settled(page);
    const coming = page.waitForEvent('download', { timeout: 360_000 });
    await page.getByRole('button', { name: 'Make films' }).click();
    const files = unzipSync(new Uint8Array(readFileSync(await (await coming).path())));
    const manifest = JSON.parse(
      new TextDecoder().decode(Object.entries(files).find(([name]) => name.endsWith('films.json'))![1]),
    ) as { films: { face: string; ink: string }[] };
    const faces = manifest.films.map((f) => f.face).sort();
    expect(faces).toEqual(['bottom', 'bottom', 'bottom', 'bottom', 'bottom', 'top', 'top']);
    await page.getByText(/^Films are ready/).waitFor();
  });

  test('undone all the way back there is nothing; made again all the way it is the same job', async () => {
    whole = await saved();
    const undo = page.getByRole('button', { name: /^Undo: / });
    let steps = 0;
    while ((await undo.count()) > 0 && steps++ < 200) await page.keyboard.press('Control+z');
    expect(steps).toBeGreaterThan(7);
    await page.getByRole('button', { name: 'Nothing to undo' }).waitFor();
    const empty = await saved();
    expect([empty.faces.bottom.art, empty.faces.top.art, empty.faces.bottom.inks]).toEqual([[], [], []]);
    const redo = page.getByRole('button', { name: /^Redo: / });
    let again = 0;
    while ((await redo.count()) > 0 && again++ < 200) await page.keyboard.press('Control+Shift+z');
    expect(again).toBe(steps);
    expect(canonicalJson(await saved())).toBe(canonicalJson(whole));
  });

  test('a page loaded again, and a program that was killed, bring the same job back', async () => {
    await station(page, 'Press');
    await page.getByRole('textbox', { name: 'Shop' }).fill('Shed number nine');
    await page.getByRole('textbox', { name: 'Shop' }).blur();
    await page.waitForTimeout(KEPT_MS);
    await page.reload();
    await page.getByText('The page was loaded again. Your unsaved work is as it was.').waitFor();
    expect(await page.getByRole('textbox', { name: 'Shop' }).inputValue()).toBe('Shed number nine');
    expect(canonicalJson(await saved())).toBe(canonicalJson({ ...whole, shop: 'Shed number nine' }));
    await page.getByRole('textbox', { name: 'Shop' }).fill('Shed number ten');
    await page.getByRole('textbox', { name: 'Shop' }).blur();
    await page.waitForTimeout(KEPT_MS);
    expect(trouble).toEqual([]);
    await host.crash();
    host = await startHost(host.state);
    await page.goto(host.address);
    await page.getByRole('button', { name: 'Open it again' }).click();
    await page.getByRole('navigation', { name: 'Stations' }).waitFor();
    await station(page, 'Press');
    expect(await page.getByRole('textbox', { name: 'Shop' }).inputValue()).toBe('Shed number ten');
    await station(page, 'Inks');
    await page.locator('.pull').nth(4).waitFor();
  });
});
