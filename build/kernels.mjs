import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ROOT } from './root.mjs';
import { isEntry, main, Refusal, run } from './step.mjs';

const SOURCE = join('core', 'raster', 'kernels', 'assembly', 'index.ts');
const TARGET = join(ROOT, 'core', 'raster', 'kernels', 'kernels.generated.ts');

/** Compiles the kernels and resolves with the module's bytes. The same sources give the same bytes. */
export async function compileKernels() {
  const dir = mkdtempSync(join(tmpdir(), 'kickflat-kernels-'));
  try {
    const wasm = join(dir, 'kernels.wasm');
    const { status, output } = await run(
      process.execPath,
      [
        join(ROOT, 'node_modules', 'assemblyscript', 'bin', 'asc.js'),
        SOURCE,
        '--outFile',
        wasm,
        '-O3',
        '--noAssert',
        '--enable',
        'simd',
        '--runtime',
        'stub',
        '--initialMemory',
        '64',
      ],
      { quiet: true },
    );
    if (status !== 0) throw new Refusal(`The kernels do not compile.\n${output}`);
    return readFileSync(wasm);
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
}

/** The generated file that holds `wasm`: text in rows, so that a change shows as a change of some rows. */
export function kernelsFile(wasm) {
  const rows = wasm.toString('base64').match(/.{1,110}/g) ?? [];
  return [
    '// Made by build/kernels.mjs from assembly/: do not edit. A WebAssembly module in base64, so that it loads alike in a',
    '// window, in a worker and in Node, without fetching anything.',
    'export const KERNELS =',
    ...rows.map((row, i) => `  '${row}'${i === rows.length - 1 ? ';' : ' +'}`),
    '',
  ].join('\n');
}

if (isEntry(import.meta))
  await main(async () => {
    const wasm = await compileKernels();
    writeFileSync(TARGET, kernelsFile(wasm));
    process.stdout.write(`${wasm.length} bytes of kernels.\n`);
  });
