import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build as esbuild } from 'esbuild';
// @ts-expect-error plain JavaScript without types
import { build } from '../../build/build.mjs';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const TRIAL = join(ROOT, 'dist', 'host', 'trial.cjs');

/** Where the program's own workers lie once it is built. */
export const WORKER = join(ROOT, 'dist', 'host', 'worker.cjs');
export { TRIAL };

/** Bundles a process of this folder into dist/ and resolves with its path; the program itself is built as well. */
export async function bundled(name: string): Promise<string> {
  await (build as (options: object) => Promise<unknown>)({ only: 'command' });
  const dir = join(ROOT, 'dist', 'fuzz');
  mkdirSync(dir, { recursive: true });
  const outfile = join(dir, `${name}.${process.pid}.mjs`);
  await esbuild({
    absWorkingDir: ROOT,
    entryPoints: [`tests/fuzz/${name}.ts`],
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    external: ['sharp'],
    outfile,
    logLevel: 'silent',
    loader: { '.svg': 'text' },
    banner: {
      js: "import { createRequire as fuzzRequire } from 'node:module'; const require = fuzzRequire(import.meta.url);",
    },
  });
  return outfile;
}
