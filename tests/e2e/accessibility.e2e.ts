import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { settled, station } from './board.ts';
import { chromiumPath, launch } from './chromium.ts';
import { demoOnDeck } from './flows.ts';
import { reach } from './keyboard.ts';
import { type StudioHost, startHost } from './studioHost.ts';
import { newStudioPage } from './studioPage.ts';

/** axe-core's rules for WCAG 2.2 A and AA, and its best practices; contrast is among them. */
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const STATIONS = ['Deck', 'Art', 'Inks', 'Traps', 'Films', 'Screens', 'Press'] as const;

/** A flat three-ink drawing of our own, on no ground. */
const BUOY =
  '<svg xmlns="http://www.w3.org/2000/svg" width="600" height="200" viewBox="0 0 600 200"><path d="M0 140h600v60H0z" fill="#23466b"/><path d="M260 140l20-90h40l20 90z" fill="#d8452b"/><path d="M276 76h48l6 26h-60z" fill="#f4e9d2"/></svg>';

interface Finding {
  readonly id: string;
  readonly impact: string | null;
  readonly help: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
}

/** Serious and critical findings on the page as it stands, each with the first places it was found. */
async function grave(page: Page): Promise<string[]> {
  // Where the last click was, something would lie under the pointer, which of its looks is a matter of chance.
  await page.mouse.move(0, 0);
  await page.evaluate(() =>
    Promise.all(
      document
        .getAnimations()
        .filter((a) => a.effect?.getComputedTiming().endTime !== Number.POSITIVE_INFINITY)
        .map((a) => a.finished.catch(() => null)),
    ),
  );
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(AXE);
  const found: Finding[] = await page.evaluate(async () => {
    const axe = (window as unknown as { axe: { run(root: Document): Promise<{ violations: Finding[] }> } })
      .axe;
    return (await axe.run(document)).violations;
  });
  return found
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(
      ({ id, help, nodes }) =>
        `${id}: ${help} (${nodes.length})\n${nodes
          .slice(0, 4)
          .map(
            (n) => `  ${n.html.slice(0, 160)}\n    ${n.failureSummary?.split('\n').slice(1, 2).join() ?? ''}`,
          )
          .join('\n')}`,
    );
}

describe.skipIf(chromiumPath === undefined)('the studio for everyone', () => {
  let browser: Browser;
  let host: StudioHost;
  beforeAll(async () => {
    browser = await launch();
    host = await startHost();
  });
  afterAll(async () => {
    await browser?.close();
    host?.stop();
  });

  for (const colorScheme of ['light', 'dark'] as const)
    test(`axe finds nothing serious on the welcome, any station or the glossary, ${colorScheme}`, async () => {
      const { page } = await newStudioPage(browser, { colorScheme, patience: 120_000 });
      await page.goto(host.address);
      await page.getByRole('button', { name: /Look at the demo/ }).waitFor();
      const found: Record<string, string[]> = { Welcome: await grave(page) };
      await demoOnDeck(page);
      for (const name of STATIONS) {
        await station(page, name);
        await settled(page);
        found[name] = await grave(page);
      }
      for (const button of ['Words of the trade', 'Guide', /^Check:/] as const) {
        await page.getByRole('button', { name: button }).click();
        await page.getByRole('dialog').waitFor();
        found[String(button)] = await grave(page);
        await page.keyboard.press('Escape');
      }
      expect(Object.fromEntries(Object.entries(found).filter(([, list]) => list.length > 0))).toEqual({});
      await page.close();
    });

  test('from own art to films with the keyboard alone, every stop of the focus to be seen', async () => {
    const { page } = await newStudioPage(browser, { patience: 120_000 });
    // Listening begins before the key, for the browser must hear of it first.
    page.on('filechooser', (chooser) =>
      chooser.setFiles({ name: 'buoy.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(BUOY) }),
    );
    await page.goto(host.address);
    const start = page.getByRole('button', { name: /Start from art/ });
    await start.waitFor();
    await reach(page, start);
    await page.keyboard.press('Enter');
    await page.getByRole('navigation', { name: 'Stations' }).waitFor();
    await settled(page);
    // The board: arrows nudge what is selected.
    await page.keyboard.press('Alt+2');
    await reach(page, page.locator('.piece-main'));
    await page.keyboard.press('Enter');
    // The inks that were found, in another order.
    await page.keyboard.press('Alt+3');
    await page.locator('.pull').nth(1).waitFor();
    const before = await page.locator('.pull b').allTextContents();
    // A grid of rows: Tab comes to a row, the arrows go along it (WAI-ARIA, grid pattern).
    await reach(page, page.locator('.pull').first());
    await reach(page, page.getByRole('button', { name: `Pull ${before[0]} later` }), 'ArrowRight', 9);
    await page.keyboard.press('Enter');
    await page.waitForFunction(
      (name) => document.querySelectorAll('.pull b')[1]?.textContent === name,
      before[0],
    );
    await page.keyboard.press('Control+z');
    await page.waitForFunction(
      (name) => document.querySelectorAll('.pull b')[0]?.textContent === name,
      before[0],
    );
    await page.keyboard.press('Alt+5');
    await settled(page);
    const make = page.getByRole('button', { name: 'Make films' });
    await reach(page, make);
    const coming = page.waitForEvent('download', { timeout: 240_000 });
    await page.keyboard.press('Enter');
    expect((await coming).suggestedFilename()).toMatch(/\.zip$/);
    await page.close();
  });

  // 1440 × 900 at 200 % is 720 × 450 to the page (WCAG 2.2, 1.4.4 Resize Text).
  test('at 200 % nothing is cut off and every station is reached', async () => {
    const { page } = await newStudioPage(browser, {
      viewport: { width: 720, height: 450 },
      deviceScaleFactor: 2,
      patience: 120_000,
    });
    await page.goto(host.address);
    await demoOnDeck(page);
    for (const name of STATIONS) {
      await station(page, name);
      await settled(page);
      const over = await page.evaluate(() => {
        const outside = (e: Element) => {
          const { left, right, width } = e.getBoundingClientRect();
          return width > 0 && (right > innerWidth + 1 || left < -1);
        };
        const scrolled = (e: Element | null): boolean =>
          e !== null &&
          ((/auto|scroll/.test(getComputedStyle(e).overflowX) && e.scrollWidth > e.clientWidth) ||
            scrolled(e.parentElement));
        return [...document.querySelectorAll('button, input:not([type=file]), select, h2')]
          .filter((e) => outside(e) && !scrolled(e))
          .map((e) => e.outerHTML.slice(0, 120));
      });
      expect({ [name]: over }).toEqual({ [name]: [] });
      // The cards keep room to be read and scrolled.
      const bench = await page.locator('main.bench').boundingBox();
      expect(bench!.height).toBeGreaterThan(120);
    }
    await page.close();
  });
});
