import type { Browser, Page } from 'playwright-core';

/** A window on the studio, and whatever the page complained of since. */
export interface StudioPage {
  readonly page: Page;
  readonly trouble: string[];
}

/** A new window that keeps downloads, accepts questions and moves nothing. `height` in CSS pixels; patience in ms. */
export async function newStudioPage(
  browser: Browser,
  { height = 900, patience = 90_000 }: { readonly height?: number; readonly patience?: number } = {},
): Promise<StudioPage> {
  const context = await browser.newContext({
    viewport: { width: 1440, height },
    reducedMotion: 'reduce',
    acceptDownloads: true,
  });
  const page = await context.newPage();
  page.setDefaultTimeout(patience);
  const trouble: string[] = [];
  page.on('pageerror', (error) => trouble.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') trouble.push(message.text());
  });
  page.on('dialog', (dialog) => void dialog.accept());
  return { page, trouble };
}
