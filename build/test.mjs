import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { install } from './install.mjs';
import { ROOT } from './root.mjs';
import { isEntry, main, Refusal, run } from './step.mjs';

/** Where the runners leave their reports. */
const REPORTS = join(ROOT, 'test-results');
const PROJECTS = ['core', 'electron', 'renderer', 'tests'];

const bin = (path) => join(ROOT, 'node_modules', ...path.split('/'));
const node = (args, options) => run(process.execPath, args, options);
const count = (ok) => ({ passed: ok ? 1 : 0, failed: ok ? 0 : 1, skipped: 0 });

/** The totals of a vitest JSON report, and whether they account for its exit status. */
export function totals(report, status) {
  // A file that can not even be loaded has no tests of its own; it must not pass unnoticed.
  const unloaded = report.testResults.filter(
    (f) => f.status === 'failed' && f.assertionResults.length === 0,
  ).length;
  const failed = report.numFailedTests + unloaded;
  return {
    passed: report.numPassedTests,
    // An error outside any test leaves every test passed and the exit status non-zero.
    failed: failed === 0 && status !== 0 ? 1 : failed,
    skipped: report.numPendingTests + report.numTodoTests,
  };
}

async function vitest(name, config) {
  mkdirSync(REPORTS, { recursive: true });
  const file = join(REPORTS, `${name}.json`);
  rmSync(file, { force: true });
  const { status } = await node([
    bin('vitest/vitest.mjs'),
    'run',
    `--config=build/${config}`,
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${file}`,
  ]);
  let report;
  try {
    report = JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    process.stdout.write(`${name}: the runner left no report.\n`);
    return count(false);
  }
  return totals(report, status);
}

async function types() {
  const { status } = await node([bin('typescript/bin/tsc'), '-b', ...PROJECTS]);
  return count(status === 0);
}

async function lint() {
  const { status } = await node([bin('@biomejs/biome/bin/biome'), 'check', '--config-path=build', '.']);
  return count(status === 0);
}

async function arrows() {
  const { status } = await node(['build/arrows.mjs']);
  return count(status === 0);
}

async function e2e() {
  const { build } = await import('./build.mjs');
  await build();
  return vitest('e2e', 'vitest.e2e.config.ts');
}

/** The steps in their order: the quick ones first. */
const STEPS = { lint, types, arrows, unit: () => vitest('unit', 'vitest.config.ts'), e2e };

export async function test(names) {
  const unknown = names.find((name) => !(name in STEPS));
  if (unknown)
    throw new Refusal(`There is no test step “${unknown}”. The steps are ${Object.keys(STEPS).join(', ')}.`);
  await install({ system: names.length === 0 || names.includes('unit') || names.includes('e2e') });
  const sum = { passed: 0, failed: 0, skipped: 0 };
  for (const [name, step] of Object.entries(STEPS)) {
    if (names.length > 0 && !names.includes(name)) continue;
    process.stdout.write(`\n── ${name}\n`);
    const result = await step();
    for (const key of Object.keys(sum)) sum[key] += result[key];
    process.stdout.write(`${name}: ${result.failed === 0 ? 'passed' : 'FAILED'}\n`);
  }
  const skipped = sum.skipped > 0 ? `, ${sum.skipped} skipped` : '';
  process.stdout.write(`\n${sum.passed} passed, ${sum.failed} failed${skipped}\n`);
  if (sum.failed > 0) process.exitCode = 1;
}

if (isEntry(import.meta)) await main(() => test(process.argv.slice(2)));
