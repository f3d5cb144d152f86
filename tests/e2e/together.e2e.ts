import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { deckTemplate } from '../../core/deck/index.ts';
import { newJob, packJob, unpackJob } from '../../core/job/index.ts';
import { chromiumPath, launch } from './chromium.ts';
import { type StudioHost, startHost } from './studioHost.ts';
import { newStudioPage, newTab } from './studioPage.ts';

describe.skipIf(chromiumPath === undefined)('one job open in two tabs of the browser', () => {
  let browser: Browser;
  let host: StudioHost;
  let path: string;
  let tabs: Page[];
  const nameOnDisk = () => {
    const file = unpackJob(new Uint8Array(readFileSync(path)));
    return file.ok ? file.value.job.name : file.reason;
  };
  beforeAll(async () => {
    const state = mkdtempSync(join(tmpdir(), 'kickflat-two-'));
    path = join(state, 'run.kickflat');
    const job = newJob({ name: 'Quay run', deck: deckTemplate('popsicle-8.25')! });
    writeFileSync(path, packJob({ job, art: new Map() }));
    browser = await launch();
    host = await startHost(state, path);
    const { page } = await newStudioPage(browser);
    tabs = [page, (await newTab(page.context())).page];
    for (const tab of tabs) {
      await tab.goto(host.address);
      await tab.getByLabel('Job name').waitFor();
    }
  });
  afterAll(async () => {
    await browser?.close();
    host?.stop();
  });
  const rename = async (tab: Page, name: string) => {
    await tab.getByLabel('Job name').fill(name);
    await tab.getByLabel('Job name').blur();
    await tab.keyboard.press('Control+s');
  };

  test('the second to save is told in a sentence, and what the first saved stays on disk', async () => {
    const [one, two] = tabs as [Page, Page];
    await rename(one, 'Quay run, by one');
    await one
      .getByText(/^Saved as/)
      .first()
      .waitFor();
    expect(nameOnDisk()).toBe('Quay run, by one');
    await rename(two, 'Quay run, by two');
    await two.getByText(/^Another window or program has saved this job/).waitFor();
    expect(nameOnDisk()).toBe('Quay run, by one');
    // Nothing of the second is lost: it is still there, unsaved, and goes out as a file of its own.
    expect(await two.locator('.file-state').textContent()).toMatch(/changed/);
    const coming = two.waitForEvent('download');
    await two.keyboard.press('Control+Shift+s');
    const copy = unpackJob(new Uint8Array(readFileSync(await (await coming).path())));
    expect(copy.ok && copy.value.job.name).toBe('Quay run, by two');
    // The first goes on saving.
    await rename(one, 'Quay run, again by one');
    await expect.poll(nameOnDisk, { timeout: 30_000 }).toBe('Quay run, again by one');
  });
});
