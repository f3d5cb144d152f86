import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { settled, station } from './board.ts';
import { chromiumPath, launch } from './chromium.ts';
import { demoOnDeck } from './flows.ts';
import { type StudioHost, startHost } from './studioHost.ts';
import { newStudioPage } from './studioPage.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const GUIDE = 'renderer/guide/pages';
const STATIONS = ['Deck', 'Art', 'Inks', 'Traps', 'Films', 'Screens', 'Press'];
const WELCOME = 'the first page';
const SPEAKS_OF = new RegExp(
  `\\b(?:at|of) the (${STATIONS.join('|')}) station|\\bgo to \\*\\*(${STATIONS.join('|')})\\*\\*`,
  'i',
);

/** A name in bold, and where the guide says it stands: at a station, on the first page, or (null) beside every station. */
interface Named {
  readonly page: string;
  readonly words: string;
  readonly at: string | null;
}

/**
 * What a page names in bold. A station's picture begins what is said of that station; a sentence that speaks of another
 * station, or of the first page, means that one, and so does the rest of its paragraph.
 */
function namedIn(page: string): Named[] {
  const named: Named[] = [];
  let at: string | null = null;
  for (const part of readFileSync(join(ROOT, page), 'utf8').split(/\n\s*\n|\n(?=\d\. |- |\|)/)) {
    const picture = /\]\(\.\.\/pictures\/(\w+)\.png\)/.exec(part)?.[1];
    at = STATIONS.find((name) => name.toLowerCase() === picture) ?? at;
    let here = at;
    for (const sentence of part.replace(/\s+/g, ' ').split(/(?<=[.?!:;]) /)) {
      const said = SPEAKS_OF.exec(sentence);
      here = /\bfirst page\b/.test(sentence) ? WELCOME : (said?.[1] ?? said?.[2] ?? here);
      for (const [, words] of sentence.matchAll(/\*\*([^*]+)\*\*/g))
        named.push({ page, words: words!, at: STATIONS.includes(words!) ? null : here });
    }
  }
  return named;
}

const plain = (text: string): string =>
  text.replace(/\s+/g, ' ').replace(/’/g, "'").replace(/^\+/, '').trim().toLowerCase();

/** Every text that stands whole in an element that is shown. */
const textsOn = async (page: Page): Promise<string[]> => {
  const texts = await page.evaluate(() => {
    for (const more of document.querySelectorAll('details')) more.open = true;
    return [...document.querySelectorAll('body *')]
      .filter((element) => element.getClientRects().length > 0 && element.textContent.length < 80)
      .map((element) => element.textContent);
  });
  return [...new Set(texts.map(plain))];
};

/** Cards tell their face or count after their name: “Print grows, bottom”. */
const stands = (words: string, texts: readonly string[] = []): boolean =>
  texts.some((text) => text === words || text.startsWith(`${words}, `) || text.startsWith(`${words}: `));

describe.skipIf(chromiumPath === undefined)('the guide, held against the studio', () => {
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

  test('whatever it names stands where it says, under that name', async () => {
    const { page, trouble } = await newStudioPage(browser);
    await page.goto(host.address);
    await page.getByRole('button', { name: /Look at the demo/ }).waitFor();
    const found = new Map([[WELCOME, await textsOn(page)]]);
    await demoOnDeck(page);
    for (const name of STATIONS) {
      await station(page, name);
      await settled(page);
      found.set(name, await textsOn(page));
    }
    const pages = readdirSync(join(ROOT, GUIDE)).map((name) => `${GUIDE}/${name}`);
    const named = ['README.md', ...pages].flatMap(namedIn);
    expect(named.length).toBeGreaterThan(50);
    const missing = named.filter(({ words, at }) =>
      (at === null ? STATIONS : [at]).some((place) => !stands(plain(words), found.get(place))),
    );
    expect(
      missing.map(({ page: on, words, at }) => `${on}: “${words}” ${at ?? 'beside every station'}`),
    ).toEqual([]);
    expect(trouble).toEqual([]);
  });
});
