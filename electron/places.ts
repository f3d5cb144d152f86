import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/**
 * Where the built files lie. Bundles of the command line know it by their own address; Electron's bundle, which is
 * CommonJS, is told by `setDist`.
 */
let dist: string | undefined;

export function setDist(dir: string): void {
  dist = dir;
}

/** The folder of everything built: dist/ in a checkout, the archive's dist/ in a package. */
export function distDir(): string {
  dist ??= fileURLToPath(new URL('.', import.meta.url));
  return dist;
}

export const workerEntry = (): string => join(distDir(), 'host', 'worker.cjs');
export const trialEntry = (): string => join(distDir(), 'host', 'trial.cjs');
export const pageDir = (): string => join(distDir(), 'renderer');
export const fontDir = (): string => join(distDir(), 'fonts');
export const demoDir = (): string => join(distDir(), 'demo');
