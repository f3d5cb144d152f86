import { bendSharesFast } from './kernels/bendSharesFast.ts';
import { kernels } from './kernels/load.ts';

/** `bendSharesFast` where the kernels are there; returns whether they are: who places edges has the plain twin. */
export function bendShares(shares: Uint8Array, planeCount: number, table: Uint8Array): boolean {
  const fast = kernels();
  if (fast) bendSharesFast(fast, shares, planeCount, table);
  return fast !== null;
}
