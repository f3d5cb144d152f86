import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { settled, station } from './board.ts';
import { chromiumPath, launch } from './chromium.ts';
import { type StudioHost, startHost } from './studioHost.ts';
import { newStudioPage } from './studioPage.ts';

/** A flat drawing of our own in four colours, one of them the paper it lies on. */
const ART =
  '<svg xmlns="http://www.w3.org/2000/svg" width="840" height="220" viewBox="0 0 840 220"><path fill="#f4e9d2" d="M0 0h840v220H0z"/><path fill="#23466b" d="M0 150q105-40 210 0t210 0 210 0 210 0v70H0z"/><circle cx="600" cy="70" r="46" fill="#f2b632"/><path fill="#d8452b" d="M380 150l20-96h40l20 96z"/></svg>';

describe.skipIf(chromiumPath === undefined)('a newcomer', () => {
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

  test('comes from the empty studio and own art to films of a measured deck in at most 25 actions', async () => {
    const { page, trouble } = await newStudioPage(browser, { patience: 120_000 });
    page.on('filechooser', (chooser) =>
      chooser.setFiles({ name: 'harbour.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(ART) }),
    );
    await page.goto(host.address);
    const started = Date.now();
    const done: string[] = [];
    /** One thing the user does; what the studio does by itself is waited for and not counted. */
    const act = async (what: string, how: () => Promise<unknown>) => {
      await how();
      done.push(what);
    };
    const type = (label: string, text: string) =>
      act(`${label}: ${text}`, async () => {
        const field = page.getByLabel(label, { exact: true });
        await field.fill(text);
        await field.press('Enter');
      });
    await act('start from art', () => page.getByRole('button', { name: /Start from art/ }).click());
    await act('choose the file', () => page.locator('.piece-main').waitFor());
    await act('to the deck', () => station(page, 'Deck'));
    await act('the nearest shape', () => page.getByRole('button', { name: /Popsicle 8\.5 in/ }).click());
    await type('Width, rail to rail', '8 1/2"');
    await type('Wheelbase, inner holes', '14.25in');
    await type('Depth at the centre', '10 mm');
    await act('to the inks', () => station(page, 'Inks'));
    await settled(page);
    await act('a base', () => page.getByRole('button', { name: 'Base', exact: true }).click());
    await act('to the traps', () => station(page, 'Traps'));
    await type('Trap, light under dark', '0.6');
    await act('to the films', () => station(page, 'Films'));
    await settled(page);
    const coming = page.waitForEvent('download', { timeout: 240_000 });
    await act('make films', () => page.getByRole('button', { name: 'Make films' }).click());
    const file = await coming;
    await act('open the films', () => file.path());
    expect(file.suggestedFilename()).toMatch(/\.zip$/);
    expect(done.length).toBeLessThanOrEqual(25);
    expect(trouble).toEqual([]);
    process.stdout.write(
      `First films after ${done.length} actions and ${((Date.now() - started) / 1000).toFixed(0)} s of the program's own work.\n`,
    );
    await page.close();
  });
});
