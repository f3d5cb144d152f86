import { spawnSync } from 'node:child_process';

/**
 * Milliseconds of processor time that ImageMagick takes on one thread for an operation on a picture, its start and reading taken
 * off; null without it.
 */
export function imageMagick(picture: string, operation: readonly string[]): number | null {
  const timed = (args: readonly string[]): number | null => {
    const script = 'TIMEFORMAT="spent %U %S"; time convert -limit thread 1 "$@" null:';
    const { status, stderr } = spawnSync('bash', ['-c', script, 'bash', picture, ...args], {
      encoding: 'utf8',
    });
    const spent = /spent ([\d.]+) ([\d.]+)/.exec(stderr);
    return status === 0 && spent ? 1000 * (Number(spent[1]) + Number(spent[2])) : null;
  };
  const bare = timed([]);
  const whole = timed(operation);
  return bare === null || whole === null ? null : Math.max(0, whole - bare);
}
