import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
// @ts-expect-error plain JavaScript without types
import { CORE as coreJs } from '../../build/arrows.mjs';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const CORE = coreJs as Readonly<Record<string, readonly string[]>>;
const read = (name: string) => readFileSync(join(ROOT, name), 'utf8');
const inTicks = (text: string) => [...text.matchAll(/`([^`\n]+)`/g)].map(([, words]) => words!);
const files = (): string[] =>
  ['core', 'electron', 'renderer', 'tests', 'build'].flatMap((top) =>
    readdirSync(join(ROOT, top), { recursive: true, encoding: 'utf8' }).map((path) =>
      [top, ...path.split(sep)].join('/'),
    ),
  );

describe.each(['DEVELOPERS.md', 'README.md', 'tests/bench/FIGURES.md'])('%s', (name) => {
  test('names only scripts that the package has', () => {
    const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };
    const named = [...read(name).matchAll(/\bnpm (?:run )?([a-z]+)\b/g)].map(([, script]) => script!);
    expect(named.filter((script) => !(script in scripts))).toEqual([]);
  });

  test('names only files and folders that are there', () => {
    const known = files();
    // A file may be named without its folder once that was said; what is written is not in the tree.
    const there = (path: string) =>
      /^(out|dist)\//.test(path) ||
      existsSync(join(ROOT, path)) ||
      known.some((file) => file.endsWith(`/${path}`) || file.includes(`/${path.replace(/\/$/, '')}/`));
    const paths = inTicks(read(name))
      .flatMap((words) => words.split(' '))
      .filter(
        (word) =>
          /^[\w./-]+\.(ts|tsx|mjs|css|json|md|cjs)$/.test(word) || /^[\w-]+(\/[\w.-]+)*\/$/.test(word),
      );
    const made = ['films.json'];
    expect(paths.filter((path) => !made.includes(path) && !there(path))).toEqual([]);
  });
});

test('the arrows of core are told as they are held', () => {
  const part = read('DEVELOPERS.md').split('## Arrows')[1]!.split('\n## ')[0]!;
  const told: Record<string, string[]> = { sentences: [], units: ['sentences'] };
  for (const line of part.split('\n').filter((row) => row.startsWith('| `'))) {
    const [, folders, imports] = line.split('|');
    for (const folder of inTicks(folders!))
      told[folder] = [...(folder === 'ports' ? [] : ['sentences', 'units']), ...inTicks(imports!)].sort();
  }
  expect(told).toEqual(
    Object.fromEntries(Object.entries(CORE).map(([folder, may]) => [folder, [...may].sort()])),
  );
});
