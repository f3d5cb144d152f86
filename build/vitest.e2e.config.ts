import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** The studio in a real browser. `build/test.mjs` builds the page first. */
export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  cacheDir: 'node_modules/.vitest',
  test: {
    include: ['tests/e2e/**/*.e2e.ts'],
    testTimeout: 400_000,
    hookTimeout: 120_000,
    pool: 'forks',
    // One browser at a time: pages that share two cores would time each other out.
    fileParallelism: false,
  },
});
