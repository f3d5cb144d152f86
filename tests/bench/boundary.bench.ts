import { chromiumPath, launch } from '../e2e/chromium.ts';
import { openStudio, servePage } from '../e2e/pageServer.ts';
import { median, ms, table } from './table.ts';

/**
 * How soon a moved sheet boundary shows its new cut, on the demonstration job on A4 and letter: from the key press to the
 * frame after the line has changed. Takes the built page. `npm run bench boundary`; `-- --a4` or `-- --letter` for one of them.
 */
const asked = ['a4', 'letter'].filter((sheet) => process.argv.includes(`--${sheet}`));
if (chromiumPath === undefined) {
  process.stdout.write('boundary: skipped, there is no Chromium on this machine.\n');
  process.exit(0);
}
const browser = await launch();
const { address, server } = await servePage();
const { page } = await openStudio(browser, address);
page.setDefaultTimeout(120_000);
// The loader that runs this file names functions by a helper, which the page does not have.
await page.evaluate('globalThis.__name = (f) => f');
await page.getByRole('button', { name: /Look at the demo/ }).click();
await page.locator('.pull').first().waitFor();
await page.locator('.rail li button', { hasText: 'Films' }).click();

const rows = [['sheet', 'film', 'moves', 'first, ms', 'median, ms', 'longest, ms']];
for (const sheet of asked.length > 0 ? asked : ['a4', 'letter']) {
  await page.getByLabel('Film sheets').selectOption(sheet);
  for (const [film, name] of ['Base white', 'Sun yellow', 'Coral', 'Sea green', 'Night blue'].entries()) {
    await page.waitForTimeout(500);
    await page.waitForFunction(() => !document.querySelector('.working.on'));
    await page.locator('.films button').nth(film).click();
    await page.locator('.boundaries [role=slider]').first().waitFor();
    const times = await page.evaluate(async () => {
      const took: number[] = [];
      const seen = () =>
        [...document.querySelectorAll('.boundaries polyline')].map((l) => l.getAttribute('points')).join(' ');
      for (let i = 0; i < 12; i++) {
        const sliders = document.querySelectorAll<SVGElement>('.boundaries [role=slider]');
        const before = seen();
        const from = performance.now();
        const key = i % 4 < 2 ? 'ArrowRight' : 'ArrowLeft';
        sliders[i % sliders.length]!.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true }));
        while (seen() === before && performance.now() - from < 800)
          await new Promise((resolve) => requestAnimationFrame(resolve));
        // Where a sheet gives way no further the cut stays; that is no wait.
        if (seen() !== before) took.push(performance.now() - from);
      }
      return took;
    });
    rows.push([
      sheet,
      name,
      String(times.length),
      ms(times[0] ?? 0),
      ms(median(times)),
      ms(Math.max(...times)),
    ]);
  }
}
process.stdout.write(`${table(rows)}\n`);
await browser.close();
server.close();
