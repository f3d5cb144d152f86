import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';

/** A window on the studio, and whatever the page complained of since. */
export interface StudioPage {
  readonly page: Page;
  readonly trouble: string[];
}

/** ms that anything in a window is waited for: a busy machine takes its time. */
const PATIENCE = 90_000;

/** Another tab of the same browser profile: patient, and says yes to every question. */
export async function newTab(context: BrowserContext, patience: number = PATIENCE): Promise<StudioPage> {
  const page = await context.newPage();
  page.setDefaultTimeout(patience);
  const trouble: string[] = [];
  page.on('pageerror', (error) => trouble.push(`${error.message}\n${error.stack ?? ''}`));
  page.on('console', (message) => {
    if (message.type() === 'error') trouble.push(message.text());
  });
  page.on('dialog', (dialog) => void dialog.accept());
  return { page, trouble };
}

/** A new window of a profile of its own that keeps downloads and moves nothing. `patience` in ms; the rest as the browser takes it. */
export async function newStudioPage(
  browser: Browser,
  { patience, ...options }: BrowserContextOptions & { readonly patience?: number } = {},
): Promise<StudioPage> {
  const context = await browser.newContext({
    viewport: { width: 1440, height: 900 },
    reducedMotion: 'reduce',
    acceptDownloads: true,
    ...options,
  });
  return newTab(context, patience);
}
