import { basename } from 'node:path';
import { expect, test } from 'vitest';
// @ts-expect-error plain JavaScript without types
import * as build from '../../../build/build.mjs';
import { TYPEFACES } from '../../../core/text/index.ts';

test('the build lays out just the files that the typefaces name', () => {
  const { fontFiles } = build as { fontFiles(): string[] };
  expect(
    fontFiles()
      .map((path) => basename(path))
      .sort(),
  ).toEqual(TYPEFACES.flatMap((t) => t.files).sort());
});
