import type { Server } from 'node:http';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { unpackJob } from '../../core/job/index.ts';
import { settled, station } from './board.ts';
import { chromiumPath, launch } from './chromium.ts';
import { openStudio, servePage } from './pageServer.ts';

/** Plain squares, each a file of its own, dropped in one go. */
const dropSquares = (page: Page, colours: readonly string[]) =>
  page.evaluate((hexes) => {
    const transfer = new DataTransfer();
    hexes.forEach((hex, i) => {
      const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="100"><path fill="${hex}" d="M0 0h100v100H0z"/></svg>`;
      transfer.items.add(new File([svg], `square-${i + 1}.svg`, { type: 'image/svg+xml' }));
    });
    document
      .querySelector('.window')!
      .dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }));
  }, colours);

/** The saved file's job, after a save. */
async function saved(page: Page) {
  const before = await page.evaluate(
    () => (globalThis as never as { host: { saved: [] } }).host.saved.length,
  );
  await page.keyboard.press('Control+s');
  await page.waitForFunction(
    (n) => (globalThis as never as { host: { saved: [] } }).host.saved.length > n,
    before,
  );
  const bytes = await page.evaluate(() => [
    ...(globalThis as unknown as { host: { saved: { bytes: Uint8Array }[] } }).host.saved.at(-1)!.bytes,
  ]);
  const file = unpackJob(Uint8Array.from(bytes));
  if (!file.ok) throw new Error(file.reason);
  return file.value;
}
const artOf = async (page: Page) => (await saved(page)).job.faces.bottom.art;
const type = async (page: Page, label: string, text: string) => {
  const field = page.getByLabel(label, { exact: true });
  await field.fill(text);
  await field.press('Enter');
};
const lastEdit = (page: Page) => page.locator('.history button').first().textContent();
const piece = (page: Page, name: string) => page.locator('.piece-main', { hasText: name });

describe.skipIf(chromiumPath === undefined)('art on the deck', () => {
  let browser: Browser;
  let server: Server;
  let address: string;
  beforeAll(async () => {
    browser = await launch();
    ({ address, server } = await servePage());
  });
  afterAll(async () => {
    await browser?.close();
    server?.close();
  });
  const squares = async (colours: readonly string[]) => {
    const opened = await openStudio(browser, address);
    await opened.page.getByRole('button', { name: /Start from art/ }).waitFor();
    await dropSquares(opened.page, colours);
    await opened.page.waitForFunction(
      (n) => document.querySelectorAll('.piece').length === n,
      colours.length,
    );
    await settled(opened.page);
    return opened;
  };
  /** Every square 40 mm, their middles at these places along the deck. */
  const spread = async (page: Page, places: readonly number[]) => {
    for (const [i, x] of places.entries()) {
      await piece(page, `square-${i + 1}`).click();
      await type(page, 'Width', '40');
      await type(page, 'From mid-wheelbase, to nose', String(x));
      await type(page, 'From centreline, up', '0');
    }
  };

  test('several files dropped at once are several pieces; taken together they are grouped, ordered, mirrored, copied', async () => {
    const { page, trouble } = await squares(['#d7263d', '#1b998b', '#2e294e']);
    await spread(page, [-150, 0, 100]);
    await piece(page, 'square-1').click();
    await piece(page, 'square-3').click({ modifiers: ['Shift'] });
    await page.getByRole('button', { name: 'Group', exact: true }).click();
    expect(await lastEdit(page)).toBe('Group art');
    // One of a group brings the other; with Alt it is taken alone.
    await piece(page, 'square-2').click();
    await piece(page, 'square-1').click();
    await page.getByRole('heading', { name: 'A group of 2' }).waitFor();
    await piece(page, 'square-1').click({ modifiers: ['Alt'] });
    await page.getByRole('heading', { name: 'Place' }).waitFor();
    await piece(page, 'square-3').click();
    await page.getByRole('button', { name: 'To the back' }).click();
    await page.getByRole('button', { name: /Mirror nose to tail/ }).click();
    let art = await artOf(page);
    expect(art.map((a) => a.name)).toEqual(['square-1.svg', 'square-3.svg', 'square-2.svg']);
    // About the middle of their common box, −25 mm: they change places.
    expect(art.map((a) => Math.round(a.x))).toEqual([100, -150, 0]);
    expect(art.map((a) => a.mirror)).toEqual([true, true, false]);
    await type(page, 'Middle from mid-wheelbase', '10 + 2*5');
    await page.getByRole('button', { name: /Duplicate all/ }).click();
    art = await artOf(page);
    expect(art).toHaveLength(5);
    expect(art.slice(0, 2).map((a) => Math.round(a.x))).toEqual([145, -105]);
    expect(new Set(art.flatMap((a) => a.group ?? [])).size).toBe(2);
    for (const name of ['Duplicate 2 pieces', 'Move art', 'Mirror art', 'Send art to the back']) {
      expect(await lastEdit(page)).toBe(name);
      await page.keyboard.press('Control+z');
    }
    expect(await page.locator('.piece').count()).toBe(3);
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  test('on the deck, Shift adds a piece, and with Shift an empty place draws a frame about several', async () => {
    const { page, trouble } = await squares(['#d7263d', '#1b998b']);
    await spread(page, [-120, 120]);
    const frame = (await page.locator('.board-frame').boundingBox())!;
    const scale = await page.evaluate(() => {
      const words = document.querySelector('.zoom-fit')!.textContent!;
      return words;
    });
    expect(scale).toBe('Whole deck');
    // The whole deck is fitted, mid-wheelbase a little tailwards of the middle: find the squares by their colour.
    const found = async (hex: string) =>
      page.evaluate((wanted) => {
        const canvas = document.querySelector<HTMLCanvasElement>('.board-frame canvas.lower-canvas')!;
        const { data, width, height } = canvas
          .getContext('2d')!
          .getImageData(0, 0, canvas.width, canvas.height);
        const rgb = [1, 3, 5].map((i) => Number.parseInt(wanted.slice(i, i + 2), 16));
        let [x, y, n] = [0, 0, 0];
        for (let i = 0; i < data.length; i += 4)
          if (rgb.every((c, k) => Math.abs(data[i + k]! - c) < 26)) {
            x += (i / 4) % width;
            y += Math.floor(i / 4 / width);
            n++;
          }
        return { x: x / n / width, y: y / n / height, n };
      }, hex);
    const at = async (hex: string) => {
      const place = await found(hex);
      expect(place.n).toBeGreaterThan(300);
      return { x: frame.x + place.x * frame.width, y: frame.y + place.y * frame.height };
    };
    await piece(page, 'square-2').click();
    await page.getByRole('button', { name: 'As drawn' }).click();
    await settled(page);
    const [one, two] = [await at('#d7263d'), await at('#1b998b')];
    await page.mouse.click(one.x, one.y);
    await page.getByRole('heading', { name: 'Place' }).waitFor();
    await page.keyboard.down('Shift');
    await page.mouse.click(two.x, two.y);
    await page.keyboard.up('Shift');
    await page.getByRole('heading', { name: '2 pieces' }).waitFor();
    await page.mouse.click(frame.x + frame.width / 2, frame.y + 40);
    expect(await page.getByRole('heading', { name: '2 pieces' }).count()).toBe(0);
    await page.keyboard.down('Shift');
    await page.mouse.move(one.x - 60, one.y - 60);
    await page.mouse.down();
    await page.mouse.move(two.x + 60, two.y + 60, { steps: 6 });
    await page.mouse.up();
    await page.keyboard.up('Shift');
    await page.getByRole('heading', { name: '2 pieces' }).waitFor();
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  test('a crop by number and to the printable area is kept in the file, and undone by name', async () => {
    const { page, trouble } = await squares(['#d7263d']);
    await piece(page, 'square-1').click();
    await type(page, 'Width', '100');
    await type(page, 'Off the left', '20 + 5 mm');
    let [art] = await artOf(page);
    expect(art!.crop).toEqual({ left: 0.25, right: 0, top: 0, bottom: 0 });
    expect([art!.width, art!.height]).toEqual([75, 100]);
    await page.getByRole('button', { name: 'Undo: Crop art' }).click();
    await page.getByRole('button', { name: 'Cover deck' }).click();
    await page.getByRole('button', { name: 'To the printable area' }).click();
    [art] = await artOf(page);
    expect(art!.crop!.top).toBeGreaterThan(0.2);
    expect(art!.width / art!.height).toBeGreaterThan(3);
    await page.getByRole('button', { name: 'Whole picture again' }).click();
    expect((await artOf(page))[0]!.crop).toBeUndefined();
    await page.getByLabel('Opacity').fill('40');
    await page.getByText(/so this piece prints solid/).waitFor();
    expect((await artOf(page))[0]!.opacity).toBe(0.4);
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  test('words are set as outlines, kept as words, and changed again after a reload of the file', async () => {
    const { page, trouble } = await openStudio(browser, address);
    await page.getByRole('button', { name: /Start from a deck/ }).click();
    await station(page, 'Art');
    await page.getByRole('button', { name: 'Add words' }).click();
    const words = page.getByRole('textbox', { name: 'Words', exact: true });
    // Changed faster than letters are drawn: nothing that was asked for is lost.
    await words.fill('Mooring\n8');
    await page.getByLabel('Font', { exact: true }).selectOption('anton');
    await type(page, 'Height of a capital', '1 1/4"');
    await page.waitForFunction(() => document.querySelector('.piece-text b')?.textContent === 'Mooring 8');
    await expect
      .poll(async () => (await artOf(page))[0]!.text?.cap, { timeout: 60_000 })
      .toBeCloseTo(31.75, 3);
    const { job, art } = await saved(page);
    const [first] = job.faces.bottom.art;
    expect(first!.text).toMatchObject({ words: 'Mooring\n8', font: 'anton', fontName: 'Anton' });
    expect(new TextDecoder().decode(art.get(first!.hash)!)).toMatch(
      /^<svg [^>]*mm".*<path fill="#1b2440" d="M/,
    );
    expect(job.faces.bottom.inks.map((i) => i.hex)).toEqual(['#1b2440']);
    // What the font lacks is said beside the words, and the piece stays.
    await words.fill('漢');
    await page
      .getByRole('alert')
      .getByText(/has no “漢”/)
      .waitFor();
    expect((await artOf(page))[0]!.text!.words).toBe('Mooring\n8');
    await page.getByRole('button', { name: 'Open', exact: true }).click();
    // A job with art opens at its inks.
    await page.locator('.pull').first().waitFor();
    await station(page, 'Art');
    await piece(page, 'Mooring 8').click();
    expect(await words.inputValue()).toBe('Mooring\n8');
    await page.locator('label', { hasText: 'to the left' }).click();
    await expect.poll(async () => (await artOf(page))[0]!.text?.align, { timeout: 60_000 }).toBe('left');
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  test('a picture copied elsewhere is pasted as art, and so is the text of a drawing', async () => {
    const { page, trouble } = await openStudio(browser, address, {
      permissions: ['clipboard-read', 'clipboard-write'],
    });
    await page.getByRole('button', { name: /Start from a deck/ }).click();
    await station(page, 'Art');
    await page.evaluate(async () => {
      const canvas = document.createElement('canvas');
      canvas.width = 300;
      canvas.height = 200;
      const ctx = canvas.getContext('2d')!;
      ctx.fillStyle = '#d7263d';
      ctx.fillRect(40, 40, 200, 120);
      const blob = await new Promise<Blob>((done) => canvas.toBlob((b) => done(b!), 'image/png'));
      await navigator.clipboard.write([new ClipboardItem({ 'image/png': blob })]);
    });
    await page.locator('.board-frame').focus();
    await page.keyboard.press('Control+v');
    await page.waitForFunction(() => document.querySelectorAll('.piece').length === 1);
    await page.evaluate(() =>
      navigator.clipboard.writeText(
        '<?xml version="1.0"?>\n<svg xmlns="http://www.w3.org/2000/svg" width="80" height="60"><circle cx="40" cy="30" r="28" fill="#1b998b"/></svg>',
      ),
    );
    await page.keyboard.press('Control+v');
    await page.waitForFunction(() => document.querySelectorAll('.piece').length === 2);
    // A piece copied here goes before whatever was there.
    await page.keyboard.press('Control+c');
    await page.keyboard.press('Control+v');
    await page.waitForFunction(() => document.querySelectorAll('.piece').length === 3);
    // Other programs find it as a picture, as it looks: 80 × 60 of it, green in the middle, bare in the corner.
    await page.keyboard.press('Control+c');
    await page.getByText(/is copied: paste it here, or as a picture/).waitFor();
    // The sentence may be that of the copy before: the picture follows the keys by as long as it takes to draw, and one
    // that is read while another takes its place is read again.
    const found = await page.waitForFunction(async () => {
      try {
        const [item] = await navigator.clipboard.read();
        const image = await createImageBitmap(await item!.getType('image/png'));
        const canvas = new OffscreenCanvas(image.width, image.height);
        const ctx = canvas.getContext('2d')!;
        ctx.drawImage(image, 0, 0);
        const at = (x: number, y: number) => [
          ...ctx.getImageData(Math.floor(x * image.width), Math.floor(y * image.height), 1, 1).data,
        ];
        return {
          ratio: image.width / image.height,
          width: image.width,
          middle: at(0.5, 0.5),
          corner: at(0.02, 0.02),
        };
      } catch {
        return null;
      }
    });
    const copied = (await found.jsonValue())!;
    expect(copied.ratio).toBeCloseTo(80 / 60, 2);
    expect(copied.width).toBeGreaterThan(2000);
    expect(copied.middle).toEqual([0x1b, 0x99, 0x8b, 255]);
    expect(copied.corner[3]).toBe(0);
    expect((await artOf(page)).map((a) => a.mediaType)).toEqual([
      'image/png',
      'image/svg+xml',
      'image/svg+xml',
    ]);
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  test('dragged near mid-wheelbase and the centreline a piece snaps to both; with Alt it stays where it is let go', async () => {
    const { page, trouble } = await squares(['#d7263d']);
    await spread(page, [60]);
    await type(page, 'From centreline, up', '20');
    await page.getByRole('button', { name: 'As drawn' }).click();
    await settled(page);
    const frame = (await page.locator('.board-frame').boundingBox())!;
    const middle = () =>
      page.evaluate(() => {
        const canvas = document.querySelector<HTMLCanvasElement>('.board-frame canvas.lower-canvas')!;
        const { width, height } = canvas;
        const { data } = canvas.getContext('2d')!.getImageData(0, 0, width, height);
        let [left, right, top, bottom] = [width, 0, height, 0];
        for (let i = 0; i < data.length; i += 4)
          if (
            Math.abs(data[i]! - 0xd7) < 12 &&
            Math.abs(data[i + 1]! - 0x26) < 12 &&
            Math.abs(data[i + 2]! - 0x3d) < 12
          ) {
            const [x, y] = [(i / 4) % width, Math.floor(i / 4 / width)];
            [left, right, top, bottom] = [
              Math.min(left, x),
              Math.max(right, x),
              Math.min(top, y),
              Math.max(bottom, y),
            ];
          }
        return {
          x: (left + right) / 2 / width,
          y: (top + bottom) / 2 / height,
          side: (right - left + 1) / width,
        };
      });
    /** Drags the square by millimetres of the deck, by hand. */
    const drag = async (along: number, up: number) => {
      const at = await middle();
      const perMm = (at.side * frame.width) / 40;
      const [x, y] = [frame.x + at.x * frame.width, frame.y + at.y * frame.height];
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x + (along * perMm) / 2, y - (up * perMm) / 2);
      await page.mouse.move(x + along * perMm, y - up * perMm);
      await page.mouse.up();
      await settled(page);
    };
    await drag(-58.5, -18.5);
    let [art] = await artOf(page);
    expect([art!.x, art!.y].map((mm) => Math.abs(mm) < 1e-6)).toEqual([true, true]);
    await page.keyboard.down('Alt');
    await drag(1.5, 1.5);
    await page.keyboard.up('Alt');
    [art] = await artOf(page);
    expect(Math.abs(art!.x - 1.5)).toBeLessThan(0.8);
    expect(Math.abs(art!.x)).toBeGreaterThan(0.5);
    expect(Math.abs(art!.y)).toBeGreaterThan(0.5);
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  test('guides are pulled out of the rulers, put to a number, and put back', async () => {
    const { page, trouble } = await openStudio(browser, address);
    await page.getByRole('button', { name: /Start from a deck/ }).click();
    await station(page, 'Art');
    const frame = (await page.locator('.board-frame').boundingBox())!;
    const drag = async (x0: number, y0: number, x1: number, y1: number) => {
      await page.mouse.move(frame.x + x0, frame.y + y0);
      await page.mouse.down();
      await page.mouse.move(frame.x + (x0 + x1) / 2, frame.y + (y0 + y1) / 2);
      await page.mouse.move(frame.x + x1, frame.y + y1);
      await page.mouse.up();
    };
    const guides = async () => (await saved(page)).job.faces.bottom.guides ?? [];
    await drag(10, 200, 500, 200);
    await drag(600, 8, 600, 150);
    expect((await guides()).map((g) => g.along)).toEqual(['s', 't']);
    await type(page, 'Across, from mid-wheelbase', '2 in');
    expect((await guides())[0]!.at).toBeCloseTo(50.8, 6);
    await page.getByRole('button', { name: 'Undo: Move a guide' }).click();
    // Taken hold of where it crosses the upper ruler, and left on the ruler it came from.
    await drag(500, 8, 5, 8);
    expect((await guides()).map((g) => g.along)).toEqual(['t']);
    await page.getByRole('button', { name: 'Take this guide away' }).click();
    expect(await guides()).toEqual([]);
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  test('fields step by arrow keys and scrub by their labels, one step of undo each', async () => {
    const { page } = await squares(['#d7263d']);
    await piece(page, 'square-1').click();
    await type(page, 'Width', '100');
    const width = page.getByLabel('Width', { exact: true });
    await width.press('ArrowUp');
    await width.press('Shift+ArrowUp');
    expect(await width.inputValue()).toBe('111');
    const label = (await page.locator('label', { hasText: /^Turned$/ }).boundingBox())!;
    await page.mouse.move(label.x + 10, label.y + 6);
    await page.mouse.down();
    await page.mouse.move(label.x + 30, label.y + 6);
    await page.mouse.move(label.x + 50, label.y + 6);
    await page.mouse.up();
    expect(await page.getByLabel('Turned', { exact: true }).inputValue()).toBe('10');
    await page.getByRole('button', { name: 'Undo: Turn art' }).click();
    expect(await page.getByLabel('Turned', { exact: true }).inputValue()).toBe('0');
    await type(page, 'Turned', '90 - 30');
    expect(await page.getByLabel('Turned', { exact: true }).inputValue()).toBe('60');
    await page.context().close();
  });

  test('at real size a millimetre of the deck is a millimetre of the screen, held against a card once', async () => {
    const { page, trouble } = await openStudio(browser, address);
    await page.getByRole('button', { name: /Start from a deck/ }).click();
    await page.getByRole('button', { name: 'Real size' }).click();
    const card = page.locator('.bank-card');
    await page.getByLabel('Size', { exact: true }).fill('5');
    // ISO/IEC 7810 ID-1: 85.60 × 53.98 mm.
    const box = (await card.boundingBox())!;
    expect(box.width).toBeCloseTo(428, 0);
    expect(box.height).toBeCloseTo(269.9, 0);
    await page.getByRole('button', { name: 'It fits' }).click();
    await page.getByText('Real size', { exact: true }).waitFor();
    const bench = await page.evaluate(
      () => (globalThis as never as { host: { shop: { bench: { screenPxPerMm: number } } } }).host.shop.bench,
    );
    expect(bench.screenPxPerMm).toBeCloseTo(5, 6);
    await page.getByTitle('Show the whole deck (0)').click();
    await page.getByRole('button', { name: 'Real size' }).click();
    await page.getByText('Real size', { exact: true }).waitFor();
    expect(trouble).toEqual([]);
    await page.context().close();
  });

  test('turned over, the board swings about its length, nose to the right; where motion is unwelcome it does not', async () => {
    for (const reducedMotion of ['no-preference', 'reduce'] as const) {
      const { page } = await openStudio(browser, address, { reducedMotion });
      await page.getByRole('button', { name: /Start from a deck/ }).click();
      const turn = page.locator('.face-switch');
      await turn.waitFor();
      const frames = await page.evaluate(() => {
        document.querySelector<HTMLButtonElement>('.face-switch')!.click();
        return document
          .querySelector('.board-frame')!
          .getAnimations()
          .flatMap((a) => (a.effect as KeyframeEffect).getKeyframes().map((k) => String(k['transform'])));
      });
      // About the x axis, which runs from tail to nose: ends stay where they are.
      expect(frames).toEqual(
        reducedMotion === 'reduce'
          ? []
          : ['perspective(1800px) rotateX(0deg)', 'perspective(1800px) rotateX(90deg)'],
      );
      await page.locator('.face-name', { hasText: 'Top' }).waitFor();
      await page.context().close();
    }
  });

  test('each problem leads to its place, and the history to any edit', async () => {
    const { page, trouble } = await squares(['#d7263d']);
    await piece(page, 'square-1').click();
    await type(page, 'From mid-wheelbase, to nose', '300');
    await station(page, 'Press');
    const button = page.getByRole('button', { name: /^Check: / });
    await button.waitFor();
    await page.waitForFunction(() =>
      /to look at/.test(document.querySelector('.problems-button')?.textContent ?? ''),
    );
    const count = async () => {
      await button.click();
      const n = await page.locator('.problem button').count();
      await page.keyboard.press('Escape');
      return n;
    };
    const problems = await count();
    expect(problems).toBeGreaterThan(0);
    for (let i = 0; i < problems; i++) {
      await station(page, 'Press');
      await button.click();
      await page.locator('.problem button').nth(i).click();
      const now = await page.locator('.rail [aria-current="step"]').textContent();
      expect(now, `problem ${i + 1}`).not.toBe('Press');
    }
    await page.getByRole('button', { name: /^All \d+ edits/ }).click();
    const edits = await page.locator('.steps li button').allTextContents();
    expect(edits[0]).toBe('Move art');
    expect(edits.at(-1)).toBe('As it was opened');
    await page.locator('.steps li button').last().click();
    await page.keyboard.press('Escape');
    await station(page, 'Art');
    await page.getByText('Drop pictures on the deck').waitFor();
    expect(trouble).toEqual([]);
    await page.context().close();
  });
});
