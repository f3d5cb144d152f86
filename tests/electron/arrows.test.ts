import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
// @ts-expect-error plain JavaScript without types
import { checkArrows as checkArrowsJs, importsOf as importsOfJs } from '../../build/arrows.mjs';

const checkArrows = checkArrowsJs as (root?: string) => string[];
const importsOf = importsOfJs as (source: string) => string[];

let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'kickflat-arrows-'));
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

function tree(files: Readonly<Record<string, string>>): string[] {
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), text);
  }
  return checkArrows(root);
}

const units = { 'core/units/index.ts': 'export const one = 1;' };

describe('the arrows between the folders', () => {
  test('the project itself breaks none', () => expect(checkArrows()).toEqual([]));

  test('allowed arrows pass: ground, index files, types, styles and data', () =>
    expect(
      tree({
        ...units,
        'core/raster/index.ts': "export { a } from './a.ts';",
        'core/raster/a.ts': "import { one } from '../units/index.ts';\nexport const a = one;",
        'core/makeFilms.ts': "import { a } from './raster/index.ts'; export const b = a;",
        'electron/cli.ts':
          "import { b } from '../core/makeFilms.ts';\nimport sharp from 'sharp';\nimport 'node:fs';",
        'renderer/main.tsx': "import { b } from '../core/makeFilms.ts'; import './a.css';",
        'renderer/a.css': '',
      }),
    ).toEqual([]));

  const bad: readonly (readonly [string, Readonly<Record<string, string>>, RegExp])[] = [
    [
      'ground reaching up',
      { ...units, 'core/units/a.ts': "import '../film/index.ts';", 'core/film/index.ts': '' },
      /units may import sentences, not film/,
    ],
    [
      'separate knowing the job',
      { 'core/separate/a.ts': "import type { J } from '../job/index.ts';", 'core/job/index.ts': '' },
      /not job/,
    ],
    [
      'a folder past its index',
      { ...units, 'core/units/x.ts': '', 'core/film/a.ts': "import '../units/x.ts';" },
      /through its index/,
    ],
    [
      'a folder seeing makeFilms',
      { 'core/makeFilms.ts': '', 'core/check/a.ts': "import '../makeFilms.ts';" },
      /no folder sees them/,
    ],
    [
      'core using the shell',
      { 'electron/a.ts': '', 'core/a.ts': "import '../electron/a.ts';" },
      /core may not import electron/,
    ],
    [
      'the page using the shell',
      { 'electron/a.ts': '', 'renderer/a.tsx': "import '../electron/a.ts';" },
      /renderer may not import electron/,
    ],
    [
      'the shell using the page',
      { 'renderer/a.ts': '', 'electron/a.ts': "await import('../renderer/a.ts');" },
      /electron may not import renderer/,
    ],
    ['core using Node', { 'core/film/a.ts': "import { readFileSync } from 'node:fs';" }, /core is pure/],
    ['core using React', { 'core/film/a.ts': "import { useState } from 'react';" }, /core is pure/],
    ['an import that is not there', { 'core/film/a.ts': "import './b.ts';" }, /does not exist/],
    [
      'an import without its ending',
      { 'core/film/a.ts': "import './b';", 'core/film/b.ts': '' },
      /does not exist/,
    ],
    [
      'a new folder nobody agreed on',
      { ...units, 'core/magic/a.ts': "import '../units/index.ts';" },
      /not in the table/,
    ],
    [
      'a script outside the tree',
      { 'core/film/a.ts': "import '../../build/x.ts';", 'build/x.ts': '' },
      /may import only/,
    ],
    [
      'an export that is an arrow too',
      { ...units, 'core/units/a.ts': "export { x } from '../deck/index.ts';", 'core/deck/index.ts': '' },
      /not deck/,
    ],
    [
      'a worker address',
      { 'electron/a.ts': '', 'renderer/a.ts': "new Worker(new URL('../electron/a.ts', import.meta.url));" },
      /renderer may not/,
    ],
  ];
  for (const [what, files, said] of bad)
    test(`${what} is refused, and why`, () => expect(tree(files).join('\n')).toMatch(said));

  test('a ring of files is named in full, one of types alone, too', () => {
    const ring = tree({
      'core/film/a.ts': "import { b } from './b.ts'; export const a = b;",
      'core/film/b.ts': "import { c } from './c.ts'; export const b = c;",
      'core/film/c.ts': "import { a } from './a.ts'; export const c = a;",
    });
    expect(ring.join()).toContain('core/film/a.ts → core/film/b.ts → core/film/c.ts → core/film/a.ts');
    const types = tree({ 'core/film/c.ts': "import type { A } from './a.ts'; export const c = 1;" });
    expect(types).toEqual(ring);
    const open = tree({ 'core/film/c.ts': 'export const c = 1;' });
    expect(open).toEqual([]);
  });

  test('comments and strings hold no arrows; imports over several lines do', () => {
    expect(
      importsOf(
        "// import 'x'\n/* import y from 'y' */\nconst s = 'import \"z\"';\nconst u = 'http://a'; import 'q';",
      ),
    ).toEqual(['q']);
    expect(
      importsOf("import {\n  a, // first\n  type B,\n} from './m.ts';\nimport type { C } from './n.ts';"),
    ).toEqual(['./m.ts', './n.ts']);
  });
});
