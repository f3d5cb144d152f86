import { install } from './install.mjs';
import { ROOT } from './root.mjs';
import { isEntry, main, run } from './step.mjs';

/**
 * Writes the golden files of tests/golden anew, from what the program makes now. Look at the difference before you commit
 * it: the tests only say that something changed. Never run by the tests themselves.
 */
export async function golden() {
  await install();
  const { status } = await run(
    process.execPath,
    ['node_modules/vitest/vitest.mjs', 'run', '--config=build/vitest.config.ts', 'tests/golden'],
    { cwd: ROOT, env: { KICKFLAT_GOLDEN: 'write' } },
  );
  process.exitCode = status;
}

if (isEntry(import.meta)) await main(golden);
