import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import * as sentences from '../../core/sentences/index.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

type Troubles = Record<string, (...said: string[]) => sentences.Failure>;

/** Every sentence of every subject, completed with plain words. */
const failures = Object.entries(sentences)
  .filter((entry): entry is [string, never] => entry[0].endsWith('Trouble') && typeof entry[1] === 'object')
  .flatMap(([subject, troubles]) =>
    Object.entries(troubles as Troubles).map(([name, make]) => {
      // Sentences that come whole, a mend or a program's answer, are told apart by the word they get.
      const words = Array.from({ length: make.length }, (_, i) => `word${i}`);
      return { name: `${subject}.${name}`, words, ...make(...words) };
    }),
  );

test('there are sentences for every subject', () => {
  expect(failures.length).toBeGreaterThan(200);
});

test('every failure says what went wrong and what to do, each as one sentence a person can read', () => {
  const odd: string[] = [];
  for (const { name, words, reason, mend } of failures) {
    for (const part of [reason, mend]) {
      if (words.includes(part)) continue;
      // A sentence begins with a capital, a quoted name, an option, or the command it is about; and it ends.
      if (!/^(\p{Lu}|“|--|\d|word0|calc )/u.test(part)) odd.push(`${name} begins oddly: ${part}`);
      if (!/[.?]$/.test(part)) odd.push(`${name} does not end: ${part}`);
      if (/undefined|null|NaN|\[object|\bE[A-Z]{4,}\b|\bat \S+:\d+|\n| {2}|\.\.$/.test(part))
        odd.push(`${name} shows what is meant for programmers: ${part}`);
      if (part.length > 200) odd.push(`${name} is too long to read: ${part}`);
    }
    if (mend.split(' ').length < 2 && !words.includes(mend)) odd.push(`${name} mends nothing: ${mend}`);
    for (const word of words)
      if (!`${reason} ${mend}`.includes(word)) odd.push(`${name} asks for ${word} and does not say it`);
  }
  expect(odd).toEqual([]);
});

test('failures are worded nowhere else', () => {
  const sources = (dir: string): string[] =>
    readdirSync(join(root, dir), { withFileTypes: true }).flatMap((entry) => {
      const path = join(dir, entry.name);
      if (entry.isDirectory()) return path === join('core', 'sentences') ? [] : sources(path);
      return /\.tsx?$/.test(entry.name) ? [path] : [];
    });
  const own = ['core', 'electron', 'renderer']
    .flatMap(sources)
    .filter((path) => /\b(badInput|fileTrouble)\(/.test(readFileSync(join(root, path), 'utf8')));
  expect(own).toEqual([]);
});
