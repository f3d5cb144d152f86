import { diskTrouble } from '../../core/sentences/index.ts';
import type { Failure } from '../../core/units/index.ts';

/** A system error as a failure; anything that is no system error is a bug and goes on up. */
export function troubleWith(path: string, error: unknown): Failure {
  const code = (error as NodeJS.ErrnoException | null)?.code;
  if (code === undefined || !/^E[A-Z0-9]+$/.test(code)) throw error;
  return diskTrouble.system(path, code);
}
