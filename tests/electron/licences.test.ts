import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
// @ts-expect-error plain JavaScript without types
import * as licences from '../../build/licences.mjs';

const root = (path: string) => fileURLToPath(new URL(`../../${path}`, import.meta.url));
const read = (path: string) => JSON.parse(readFileSync(root(path), 'utf8'));
const { allowed, installScripts, LIST, licenceList, runtimePackages } = licences as {
  allowed(licence: string, name: string): boolean;
  installScripts(lock: object): string[];
  LIST: string;
  licenceList(lock?: object): string;
  runtimePackages(lock: object): { path: string; name: string; version: string; licence: string }[];
};
const lock = read('package-lock.json');

test('the list of licences is that of the packages the lock file names; npm run licences -- --write renews it', () => {
  expect(readFileSync(LIST, 'utf8')).toBe(licenceList());
});

test('everything that runs with the program may be shipped with it', () => {
  const packages = runtimePackages(lock);
  const names = new Set(packages.map((p) => p.name));
  for (const name of Object.keys(read('package.json').dependencies)) expect(names, name).toContain(name);
  // Of the workshop alone, so never of the list.
  for (const name of ['vitest', 'electron-builder', 'dxf-parser', 'typescript'])
    expect(names).not.toContain(name);
  expect(packages.filter((p) => !allowed(p.licence, p.name))).toEqual([]);
  for (const [licence, name] of [
    ['', 'a'],
    ['GPL-3.0-or-later', 'a'],
    ['LGPL-3.0-or-later', 'a'],
    ['MIT AND GPL-2.0-only', 'a'],
    ['UNLICENSED', 'a'],
  ] as const)
    expect(allowed(licence, name), licence).toBe(false);
  expect(allowed('(MIT OR GPL-2.0-only)', 'a')).toBe(true);
});

test('a dependency is looked for as Node does: the nearest one counts', () => {
  const packages = {
    '': { dependencies: { a: '1' } },
    'node_modules/a': { version: '1', license: 'MIT', dependencies: { b: '1' } },
    'node_modules/a/node_modules/b': { version: '1', license: 'ISC' },
    'node_modules/b': { version: '2', license: 'GPL-3.0-only' },
  };
  expect(runtimePackages({ packages }).map((p) => `${p.name} ${p.version}`)).toEqual(['a 1', 'b 1']);
});

test('no package runs a script while it is installed but those named, and only esbuild’s may', () => {
  const { allowScripts } = read('package.json') as { allowScripts: Record<string, boolean> };
  expect(installScripts(lock)).toEqual(Object.keys(allowScripts).sort());
  expect(Object.entries(allowScripts).filter(([, may]) => may)).toEqual([['esbuild', true]]);
});
