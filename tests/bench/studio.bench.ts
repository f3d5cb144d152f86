import { chromiumPath, launch } from '../e2e/chromium.ts';
import { openStudio, servePage } from '../e2e/pageServer.ts';

/**
 * How the studio keeps up on the demonstration job: frames while art is dragged, the first proof after a change, a
 * station's switch. Takes the built page. Chromium draws in software here; what that costs is part of the numbers.
 */
if (chromiumPath === undefined) {
  process.stdout.write('studio: skipped, there is no Chromium on this machine.\n');
  process.exit(0);
}

const at = (sorted: readonly number[], share: number) =>
  sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))]!;
const line = (name: string, ms: readonly number[], goal: string) => {
  const sorted = [...ms].sort((a, b) => a - b);
  const cells = [at(sorted, 0.5), at(sorted, 0.95)].map((n) => `${n.toFixed(1)} ms`.padStart(10));
  process.stdout.write(`${name.padEnd(34)}${cells.join('')}   ${goal}\n`);
};

const browser = await launch();
const { address, server } = await servePage();
const { page } = await openStudio(browser, address);
page.setDefaultTimeout(120_000);
// The loader that runs this file names functions by a helper, which the page does not have.
await page.evaluate('globalThis.__name = (f) => f');
await page.getByRole('button', { name: /Look at the demo/ }).click();
await page.locator('.pull').first().waitFor();
const quiet = async () => {
  await page.waitForTimeout(1500);
  await page.waitForFunction(() => !document.querySelector('.working.on'));
  await page.waitForTimeout(2500);
};
await quiet();
process.stdout.write(`${''.padEnd(34)}${'median'.padStart(10)}${'95th'.padStart(10)}\n`);

/** ms from a click on the nth match to the first changed pixel of the board. */
const untilShown = (selector: string, n: number) =>
  page.evaluate(
    async ([find, index]) => {
      const canvas = document.querySelector<HTMLCanvasElement>('.board-frame canvas.lower-canvas')!;
      const probe = document.createElement('canvas');
      probe.width = 64;
      probe.height = 16;
      const ctx = probe.getContext('2d', { willReadFrequently: true })!;
      const look = () => {
        ctx.drawImage(canvas, 0, 0, 64, 16);
        return ctx.getImageData(0, 0, 64, 16).data.join();
      };
      const before = look();
      const from = performance.now();
      document.querySelectorAll<HTMLElement>(find as string)[index as number]!.click();
      while (performance.now() - from < 5000) {
        await new Promise((resolve) => requestAnimationFrame(resolve));
        if (look() !== before) break;
      }
      return performance.now() - from;
    },
    [selector, n] as const,
  );

const proofs: number[] = [];
for (let i = 0; i < 8; i++) {
  proofs.push(await untilShown('.proof-grid button', (i + 1) % 4));
  await quiet();
}
line('first proof on another veneer', proofs, 'goal 100 ms');

const switches: number[] = [];
for (const [, name] of ['Art', 'Films', 'Inks', 'Deck', 'Press', 'Art', 'Screens', 'Inks'].entries()) {
  switches.push(
    await page.evaluate(async (title) => {
      const button = [...document.querySelectorAll<HTMLButtonElement>('.rail li button')].find(
        (b) => b.textContent === title,
      )!;
      const from = performance.now();
      button.click();
      await new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));
      return performance.now() - from;
    }, name),
  );
  await quiet();
}
line('another station shown', switches, 'goal 100 ms');

await page.locator('.rail li button', { hasText: 'Art' }).click();
await quiet();
const frame = (await page.locator('.board-frame').boundingBox())!;
const [x, y] = [frame.x + frame.width / 2, frame.y + frame.height / 2];
await page.mouse.move(x, y);
await page.mouse.down();
await page.mouse.move(x + 10, y + 4);
const recording = page.evaluate(async () => {
  const frames: number[] = [];
  let last = await new Promise<number>((resolve) => requestAnimationFrame(resolve));
  const end = last + 3000;
  while (last < end) {
    const now = await new Promise<number>((resolve) => requestAnimationFrame(resolve));
    frames.push(now - last);
    last = now;
  }
  return frames;
});
const until = Date.now() + 3000;
for (let i = 0; Date.now() < until; i++)
  await page.mouse.move(x + 60 * Math.sin(i / 9), y + 14 * Math.cos(i / 7));
line('frame while art is dragged', await recording, 'goal 17 ms, 33 ms');
await page.mouse.up();
await browser.close();
server.close();
