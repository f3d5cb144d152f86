import { cpus, loadavg } from 'node:os';
import { chromiumPath, launch } from '../e2e/chromium.ts';
import { openStudio, servePage } from '../e2e/pageServer.ts';

/**
 * How the studio keeps up on the demonstration job: frames while art is dragged, the first proof after a change, a
 * station's switch; with `--stations` the last alone. Takes the built page. Chromium draws in software here; what that costs is part of the numbers.
 */
if (chromiumPath === undefined) {
  process.stdout.write('studio: skipped, there is no Chromium on this machine.\n');
  process.exit(0);
}

const at = (sorted: readonly number[], share: number) =>
  sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))]!;
const line = (name: string, ms: readonly number[], goal: string, busy: readonly number[] = []) => {
  const sorted = [...ms].sort((a, b) => a - b);
  const own = [...busy].sort((a, b) => a - b);
  const cells = [at(sorted, 0.5), at(sorted, 0.95), ...(own.length > 0 ? [at(own, 0.5)] : [])].map((n) =>
    `${n.toFixed(1)} ms`.padStart(10),
  );
  if (own.length === 0) cells.push(''.padStart(10));
  process.stdout.write(`${name.padEnd(36)}${cells.join('')}   ${goal}\n`);
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
const head = ['median', '95th', 'own'].map((title) => title.padStart(10)).join('');
process.stdout.write(`${''.padEnd(36)}${head}\n`);

// Beside the time by the clock, in which other programs have their turns too, the processor time of the window's own thread.
const devtools = await page.context().newCDPSession(page);
await devtools.send('Performance.enable', { timeDomain: 'threadTicks' });
const threadMs = async () => {
  const { metrics } = await devtools.send('Performance.getMetrics');
  return 1000 * metrics.find(({ name }) => name === 'TaskDuration')!.value;
};
/** Lists of the times by the clock and of the window's thread. */
const timed = async (times: number[], busy: number[], run: () => Promise<number>) => {
  const before = await threadMs();
  times.push(await run());
  busy.push((await threadMs()) - before);
  await quiet();
};

/** ms from a click on the nth match, or from a value put into it, to the first changed pixel of the board. */
const untilShown = (selector: string, n: number, value?: string) =>
  page.evaluate(
    async ({ selector, n, value }) => {
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
      const element = document.querySelectorAll<HTMLElement>(selector)[n]!;
      const from = performance.now();
      if (value === undefined) element.click();
      else {
        Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')!.set!.call(element, value);
        element.dispatchEvent(new Event('input', { bubbles: true }));
      }
      while (performance.now() - from < 5000) {
        await new Promise((resolve) => requestAnimationFrame(resolve));
        if (look() !== before) break;
      }
      return performance.now() - from;
    },
    { selector, n, value },
  );

const stationsOnly = process.argv.includes('--stations');
if (!stationsOnly) await proofTimes();

async function proofTimes() {
  const proofs: number[] = [];
  const proofsOwn: number[] = [];
  for (let i = 0; i < 6; i++)
    await timed(proofs, proofsOwn, () => untilShown('.run-grid td:nth-of-type(1) button', (i + 1) % 4));
  line('first proof on another veneer', proofs, 'goal 100 ms', proofsOwn);

  await page.locator('.rail li button', { hasText: 'Inks' }).click();
  await quiet();
  await page.locator('.pull').nth(1).click();
  await quiet();
  const colours: number[] = [];
  const coloursOwn: number[] = [];
  for (const hex of ['#d02020', '#20a0d0', '#d0c020', '#402080', '#20c060', '#e06010'])
    await timed(colours, coloursOwn, () => untilShown('main input[type="color"]', 0, hex));
  line('first proof after an ink’s colour', colours, 'goal 100 ms', coloursOwn);
  const orders: number[] = [];
  const ordersOwn: number[] = [];
  for (let i = 0; i < 6; i++) {
    const way = i % 2 ? 'earlier' : 'later';
    const button = `[aria-label^="Pull "][aria-label$="${way}"]:not(:disabled)`;
    await timed(orders, ordersOwn, () => untilShown(button, 1));
  }
  line('first proof after inks change places', orders, 'goal 100 ms', ordersOwn);
  const hides: number[] = [];
  const hidesOwn: number[] = [];
  for (const value of ['50', '80', '30', '90'])
    await timed(hides, hidesOwn, () => untilShown('.share input[type="range"]', 0, value));
  line('first proof after an ink hides less', hides, 'goal 100 ms', hidesOwn);
  const removed: number[] = [];
  const removedOwn: number[] = [];
  const back: number[] = [];
  const backOwn: number[] = [];
  for (let i = 0; i < 3; i++) {
    await page
      .locator('.pull')
      .nth(1 + i)
      .click();
    await quiet();
    await page
      .getByRole('button', { name: 'Remove', exact: true })
      .evaluate((b) => b.classList.add('removes'));
    await timed(removed, removedOwn, () => untilShown('.removes', 0));
    await timed(back, backOwn, () => untilShown('[aria-label^="Undo: "]', 0));
  }
  line('first proof without an ink', removed, 'goal 100 ms', removedOwn);
  line('first proof with it again, undone', back, 'goal 100 ms', backOwn);
}

const switches: number[] = [];
const switchesOwn: number[] = [];
for (const name of ['Art', 'Films', 'Inks', 'Deck', 'Press', 'Traps', 'Screens', 'Inks'])
  await timed(switches, switchesOwn, () =>
    page.evaluate(async (title) => {
      const button = [...document.querySelectorAll<HTMLButtonElement>('.rail li button')].find(
        (b) => b.textContent === title,
      )!;
      const from = performance.now();
      button.click();
      await new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve)));
      return performance.now() - from;
    }, name),
  );
line('another station shown', switches, 'goal 100 ms', switchesOwn);
process.stdout.write(
  `  one by one: ${switches.map((n) => n.toFixed(0)).join(', ')} ms; own ${switchesOwn.map((n) => n.toFixed(0)).join(', ')} ms\n`,
);

if (!stationsOnly) await frameTimes();
process.stdout.write(
  `${cpus().length} × ${cpus()[0]?.model ?? 'unknown processor'}, Node ${process.versions.node}, load ${loadavg()[0]!.toFixed(1)}.\n`,
);
await browser.close();
server.close();

async function frameTimes() {
  await page.locator('.rail li button', { hasText: 'Art' }).click();
  await quiet();
  const frame = (await page.locator('.board-frame').boundingBox())!;
  const [x, y] = [frame.x + frame.width / 2, frame.y + frame.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 10, y + 4);
  const dragBefore = await threadMs();
  const counted = page.evaluate(async () => {
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
  const frames = await counted;
  const dragOwn = (await threadMs()) - dragBefore;
  line('frame while art is dragged', frames, 'goal 17 ms, 33 ms', [dragOwn / frames.length]);
  await page.mouse.up();
  await quiet();
  // How much of that is this machine's: a bare page's frames, with the same load beside it.
  const bare = await browser.newPage();
  const idle = await bare.evaluate(async () => {
    const frames: number[] = [];
    let last = await new Promise<number>((resolve) => requestAnimationFrame(resolve));
    for (let i = 0; i < 120; i++) {
      const now = await new Promise<number>((resolve) => requestAnimationFrame(resolve));
      frames.push(now - last);
      last = now;
    }
    return frames;
  });
  line('frame of an empty page', idle, '');
}
