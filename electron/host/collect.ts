import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

let made: (() => void) | undefined;

/**
 * Collects now what nobody refers to any more, in a few hundredths of a second: a thread that does little but wait for others does not
 * come to it by itself, and holds the decoded art of a whole face meanwhile. Does nothing where the engine does not let itself be told.
 */
export function collect(): void {
  if (!made) {
    try {
      setFlagsFromString('--expose-gc');
      const gc: unknown = runInNewContext('gc');
      made = typeof gc === 'function' ? () => gc() : () => {};
    } catch {
      made = () => {};
    }
  }
  made();
}
