import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from './root.mjs';
import { isEntry, main, run } from './step.mjs';

/** The file that keeps a tile's ranks: two bytes each, the lower first, in base64. */
export function blueNoiseFile(ranks) {
  const bytes = Buffer.alloc(ranks.length * 2);
  ranks.forEach((rank, i) => {
    bytes.writeUInt16LE(rank, 2 * i);
  });
  const rows = bytes.toString('base64').match(/.{1,110}/g);
  return [
    '// Made by build/blueNoise.mjs with core/raster/voidAndCluster.ts: do not edit.',
    'export const BLUE_NOISE_RANKS =',
    ...rows.map((row, i) => `  '${row}'${i === rows.length - 1 ? ';' : ' +'}`),
    '',
  ].join('\n');
}

if (isEntry(import.meta))
  await main(async () => {
    // TypeScript sources need a loader: the script starts itself again under one.
    if (!process.execArgv.includes('tsx')) {
      const again = ['--import', 'tsx', join(ROOT, 'build', 'blueNoise.mjs')];
      process.exitCode = (await run(process.execPath, again)).status;
      return;
    }
    const { voidAndCluster } = await import('../core/raster/voidAndCluster.ts');
    const { BLUE_NOISE_SEED, BLUE_NOISE_SIZE } = await import('../core/raster/blueNoise.ts');
    const ranks = voidAndCluster(BLUE_NOISE_SIZE, BLUE_NOISE_SEED);
    writeFileSync(join(ROOT, 'core', 'raster', 'blueNoise.generated.ts'), blueNoiseFile(ranks));
  });
