import { fork } from 'node:child_process';
import { rmSync } from 'node:fs';
// @ts-expect-error plain JavaScript without types
import { ONE_ARENA, SMALL_NURSERY } from '../../build/leanMemory.mjs';
import { bundled, WORKER } from './bundle.ts';
import type { Endurance } from './enduranceProcess.ts';

export type { Endurance } from './enduranceProcess.ts';

/** Makes films again and again in one process, started as the studio's is, then stops them again and again. */
export async function endurance(options: {
  readonly exports: number;
  readonly cancels: number;
  readonly seed: number;
}): Promise<Endurance & { readonly ended: number | null }> {
  const entry = await bundled('enduranceProcess');
  try {
    const args = [WORKER, options.exports, options.cancels, options.seed].map(String);
    const child = fork(entry, args, {
      env: { ...process.env, ...ONE_ARENA },
      execArgv: ['--expose-gc', ...SMALL_NURSERY],
      stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
    });
    let stderr = '';
    child.stderr?.on('data', (text) => {
      stderr += text;
    });
    let told: Endurance | null = null;
    child.on('message', (message: Endurance) => {
      told = message;
    });
    const ended = await new Promise<number | null>((resolve) => child.once('close', resolve));
    if (!told) throw new Error(`The process ended with status ${ended} and told nothing. ${stderr}`);
    return { ...(told as Endurance), ended };
  } finally {
    rmSync(entry, { force: true });
  }
}

/** The middle of the last five over the third: 1 is no growth. */
export function growth(memory: readonly number[]): number {
  const last = [...memory.slice(-5)].sort((a, b) => a - b);
  return (last[last.length >> 1] as number) / (memory[2] as number);
}
