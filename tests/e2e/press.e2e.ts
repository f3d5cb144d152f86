import { readFileSync } from 'node:fs';
import { unzipSync } from 'fflate';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { settled, station } from './board.ts';
import { chromiumPath, launch } from './chromium.ts';
import { demoOnDeck } from './flows.ts';
import { type StudioHost, startHost } from './studioHost.ts';
import { newStudioPage, newTab } from './studioPage.ts';

describe.skipIf(chromiumPath === undefined)('screens and press in the studio', () => {
  let browser: Browser;
  let host: StudioHost;
  let page: Page;
  let trouble: string[];
  beforeAll(async () => {
    browser = await launch();
    host = await startHost();
    ({ page, trouble } = await newStudioPage(browser, { viewport: { width: 1440, height: 1000 } }));
    await page.goto(host.address);
    await demoOnDeck(page);
    await station(page, 'Press');
    await settled(page);
  });
  afterAll(async () => {
    await browser?.close();
    host?.stop();
  });
  const card = (title: string | RegExp) =>
    page.locator('.card', { has: page.getByRole('heading', { name: title }) });

  test('readings of a test print tell each clamp its way, and are written down', async () => {
    const register = card(/^Register/);
    // A print 0.4 mm too far to the nose at every scale that reads along: both clamps go to the tail.
    const rows = register.locator('.readings tbody tr');
    let read = 0;
    for (let i = 0; i < (await rows.count()); i++) {
      const cells = rows.nth(i).locator('td');
      for (const [column, value] of [
        [1, '0.4'],
        [2, '0'],
      ] as const) {
        const toggle = cells.nth(column).getByRole('switch');
        if ((await toggle.count()) === 0) continue;
        // The switch itself is drawn by its label.
        await cells.nth(column).locator('label.toggle').click();
        const box = cells.nth(column).locator('input:not([type=checkbox])');
        await box.fill(value);
        await box.press('Enter');
        read++;
      }
    }
    // This pull's own scales and no others: two at either end and at either rail.
    expect(await rows.locator('td:first-child').allTextContents()).toEqual([
      'nose',
      'tail',
      'far rail',
      'near rail',
    ]);
    expect(read).toBe(8);
    const words = await register.locator('.clamp-words span').allTextContents();
    expect(words).toHaveLength(2);
    for (const each of words) expect(each).toMatch(/0\.40? mm.*tail|tail.*0\.40? mm/);
    await register.getByRole('button', { name: 'Moved: write it down' }).click();
    await register.locator('.steps-list li').first().waitFor();
    expect(await register.locator('.steps-list li').count()).toBe(1);
    expect(trouble).toEqual([]);
  });

  test('a ticked task keeps its own time, and the rest is planned again', async () => {
    const plan = card('The plan');
    await plan.getByText(/^What to do when: 0 of \d+ done/).click();
    const line = plan.locator('.plan-line').first();
    await line.getByRole('checkbox').check();
    await plan.getByText(/^What to do when: 1 of \d+ done/).waitFor();
    const when = plan.getByLabel(/^Time at which it was done/).first();
    await when.fill('15:20');
    await plan
      .getByLabel(/^Time at which it was done/)
      .first()
      .waitFor();
    expect(
      await plan
        .getByLabel(/^Time at which it was done/)
        .first()
        .inputValue(),
    ).toBe('15:20');
    // Saturday is day one: nothing that is left begins before twenty past three.
    await page.waitForFunction(() => {
      const first = document.querySelector('.plan-line time')?.textContent ?? '';
      const at = /, (\d\d):(\d\d)/.exec(first);
      return at !== null && Number(at[1]) * 60 + Number(at[2]) >= 15 * 60 + 20;
    });
    expect(trouble).toEqual([]);
  });

  test('a printed lot is told by the log, deck by deck, and the plan knows', async () => {
    const log = card('Log');
    await log.getByLabel('Decks', { exact: true }).fill('5');
    await log.getByLabel('Decks', { exact: true }).press('Tab');
    await log.getByLabel(/^Their numbers/).fill('1-5');
    await log.getByLabel('Notes').fill('clean edges');
    await log.getByRole('button', { name: 'Write', exact: true }).click();
    const line = log.getByRole('table', { name: 'Log, newest first' }).locator('tbody tr').first();
    expect(await line.textContent()).toMatch(/Base white.*printed.*5.*no\. 1-5.*clean edges/);
    await page.locator('.plan-line', { hasText: /print the last 23 of 28 decks: Base white/ }).waitFor();
  });

  test('the shop keeps this job’s figures, and they are there in another window', async () => {
    const shop = card('Your shop');
    await shop.getByRole('button', { name: 'Keep this job’s figures for the shop' }).click();
    await shop.getByLabel('name of Night blue').first().waitFor();
    await shop.getByRole('button', { name: 'Add a lamp' }).click();
    const lamp = shop.getByLabel('name of New lamp');
    await lamp.fill('Black box');
    await lamp.press('Enter');
    await shop.getByLabel('name of Black box').waitFor();
    const kept = () => JSON.parse(readFileSync(`${host.state}/shop.json`, 'utf8'));
    expect(kept().lamps).toEqual([{ name: 'Black box' }]);
    expect(kept().frames[0]).toMatchObject({ width: 400, length: 1060 });
    const { page: other } = await newTab(page.context());
    await other.goto(host.address);
    await other.getByRole('button', { name: /Start from a deck/ }).click();
    await other.getByRole('navigation', { name: 'Stations' }).waitFor();
    await station(other, 'Screens');
    expect(await other.getByLabel('Lamp', { exact: true }).inputValue()).toBe('Black box');
    await other.close();
    expect(trouble).toEqual([]);
  });

  test('press sheets come as one download, with the run sheet and 1:1 drawings', async () => {
    const coming = page.waitForEvent('download', { timeout: 420_000 });
    await page.getByRole('button', { name: 'Make press sheets' }).click();
    const file = await (await coming).path();
    const files = unzipSync(new Uint8Array(readFileSync(file)));
    expect(Object.keys(files).sort()).toEqual(
      expect.arrayContaining([
        'calibration.pdf',
        'jig-bottom.dxf',
        'jig-bottom.svg',
        'jig.pdf',
        'press.json',
        'run-sheet.pdf',
        'squeegee.pdf',
        'step-test.pdf',
      ]),
    );
    expect(new TextDecoder().decode(files['run-sheet.pdf']!.slice(0, 5))).toBe('%PDF-');
    const sheet = JSON.parse(new TextDecoder().decode(files['press.json']));
    expect(sheet.pulls).toHaveLength(7);
    await page.getByText(/^Press sheets are ready/).waitFor();
    expect(trouble).toEqual([]);
  });

  test('a reprint in a new colourway has nothing done, and remembers the last run', async () => {
    const again = card('Print it again');
    await again.getByLabel('Colourway of the reprint').selectOption({ label: 'a new one…' });
    await again.getByLabel('Name of the new colourway').fill('Dusk');
    await again.getByLabel('Name of the new colourway').press('Enter');
    await again.getByLabel('Coral in the new colourway').fill('#8a5fb0');
    await again.getByLabel('Name of the run that is over').fill('Breakwater Jam');
    await again.getByLabel('Name of the run that is over').press('Enter');
    await again.getByRole('button', { name: 'Begin a reprint' }).click();
    await again
      .getByText(/Breakwater Jam/)
      .first()
      .waitFor();
    await card('The plan')
      .getByText(/^What to do when: 0 of \d+ done/)
      .waitFor();
    const ways = await card('The run').getByLabel('Colourway', { exact: true }).first().inputValue();
    expect(ways).toBe('dusk');
    await page.getByRole('button', { name: 'Undo: Begin a reprint' }).click();
    await card('The plan')
      .getByText(/^What to do when: 1 of \d+ done/)
      .waitFor();
    expect(trouble).toEqual([]);
  });
});
