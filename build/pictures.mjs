import { spawn } from 'node:child_process';
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from './build.mjs';
import { install } from './install.mjs';
import { papers } from './papers.mjs';
import { ROOT } from './root.mjs';
import { isEntry, main, Refusal } from './step.mjs';

/** Where the README and the guide find them. */
const OUT = join(ROOT, 'renderer/guide/pictures');
const STATIONS = ['Deck', 'Art', 'Inks', 'Traps', 'Films', 'Screens', 'Press'];
const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** The studio's own program on a loopback address, with a state folder of its own. */
async function host(state) {
  const child = spawn(process.execPath, [join(ROOT, 'dist/cli.mjs'), 'studio', '--browser', '--json'], {
    env: { ...process.env, DISPLAY: '', XDG_STATE_HOME: state, HOME: state },
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const address = await new Promise((resolve, reject) => {
    let text = '';
    child.stdout.on('data', (chunk) => {
      text += chunk;
      const found = /"address":\s*"([^"]+)"/.exec(text);
      if (found) resolve(found[1]);
    });
    child.on('exit', (code) => reject(new Refusal(`The studio ended with ${code}.`)));
  });
  return { address, stop: () => child.kill() };
}

/** Every station of the demonstration job in the running studio, so that the guide's pictures are never stale. */
async function stations() {
  const sharp = (await import('sharp')).default;
  const { chromium } = await import('playwright-core');
  const state = await mkdtemp(join(tmpdir(), 'kickflat-pictures-'));
  const studio = await host(state);
  const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: FLAGS });
  try {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await page.goto(studio.address);
    await page.getByRole('button', { name: /demo/i }).first().click();
    // The hints of the first time would hide a row of cards.
    await page.getByRole('button', { name: 'No more hints' }).click();
    for (const station of STATIONS) {
      const rail = page.getByRole('navigation', { name: 'Stations' });
      await rail.getByRole('button', { name: station, exact: true }).click();
      // Long enough for the slowest preview; nothing else says that the deck has settled.
      await page.waitForTimeout(6000);
      const shot = await page.screenshot();
      // 128 colours keep a flat screen's picture a quarter of the size.
      await writeFile(
        join(OUT, `${station.toLowerCase()}.png`),
        await sharp(shot).png({ palette: true, colours: 128, effort: 10 }).toBuffer(),
      );
      process.stdout.write(`${station.toLowerCase()}.png\n`);
    }
  } finally {
    await browser.close();
    studio.stop();
    await rm(state, { recursive: true, force: true });
  }
}

/** All pictures of the README and the guide; `papers` or `stations` alone when named. */
export async function pictures(only) {
  await install({ system: true });
  await build();
  await mkdir(OUT, { recursive: true });
  if (only !== 'papers') await stations();
  if (only !== 'stations') await papers(OUT);
}

if (isEntry(import.meta)) await main(() => pictures(process.argv[2]));
