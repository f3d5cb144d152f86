import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';

/** Where Debian, Ubuntu, Fedora and macOS put a Chromium; `KICKFLAT_CHROMIUM` names another. */
const PLACES = [
  process.env['KICKFLAT_CHROMIUM'],
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
];

/** A Chromium on this machine, or undefined: the browser tests are then skipped and say so. */
export const chromiumPath = PLACES.find((path) => path !== undefined && existsSync(path));

/** Starts it without a window; it fetches nothing of its own. */
export function launch(): Promise<Browser> {
  return chromium.launch({
    executablePath: chromiumPath!,
    args: [
      '--no-sandbox',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}
