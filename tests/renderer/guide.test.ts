import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const PAGES = join(ROOT, 'renderer/guide/pages');
const pages = readdirSync(PAGES).map((name) => ({ name, text: readFileSync(join(PAGES, name), 'utf8') }));

/** All the studio's own source, as one text with its line breaks closed up. */
const source = readdirSync(join(ROOT, 'renderer'), { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.tsx?$/.test(name))
  .map((name) => readFileSync(join(ROOT, 'renderer', name), 'utf8'))
  .join('\n')
  .replace(/\s+/g, ' ')
  .toLowerCase();

/** Words that stand on the screen in parts, or come from a template. */
const inParts = (words: string) =>
  words
    .replace(/^\+ /, '')
    .toLowerCase()
    .replace(/’/g, "[’']")
    .split(/\s*\|\s*/);

test.each(pages)('$name names only controls and cards that the studio has', ({ text }) => {
  const named = [...text.matchAll(/\*\*([^*]+)\*\*/g)].map(([, words]) => words!.replace(/\s+/g, ' '));
  expect(named.length).toBeGreaterThan(0);
  const strange = named.filter(
    (words) => !inParts(words).every((part) => new RegExp(part.replace(/[.?()]/g, '\\$&')).test(source)),
  );
  expect(strange).toEqual([]);
});

test.each(pages)('$name shows only pictures that are there', ({ text }) => {
  const shown = [...text.matchAll(/\]\(\.\.\/pictures\/([^)]+)\)/g)].map(([, name]) => name!);
  expect(shown.filter((name) => !existsSync(join(ROOT, 'renderer/guide/pictures', name)))).toEqual([]);
});
