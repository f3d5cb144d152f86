import { spawnSync } from 'node:child_process';

/** Milliseconds that ImageMagick takes for an operation on a picture, its start and reading taken off; null without it. */
export function imageMagick(picture: string, operation: readonly string[]): number | null {
  const timed = (args: readonly string[]): number | null => {
    const start = performance.now();
    const { status } = spawnSync('convert', [picture, ...args, 'null:'], { stdio: 'ignore' });
    return status === 0 ? performance.now() - start : null;
  };
  const bare = timed([]);
  const whole = timed(operation);
  return bare === null || whole === null ? null : Math.max(0, whole - bare);
}
