import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** Unit, reference and golden tests. The studio's browser tests have their own: vitest.e2e.config.ts. */
export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  cacheDir: 'node_modules/.vitest',
  test: {
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    exclude: ['tests/e2e/**', 'tests/bench/**', 'node_modules/**'],
    // Files start programs, workers and renderers: a slow machine must not turn a right answer into a failure.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    pool: 'forks',
  },
});
