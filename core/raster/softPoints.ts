import { kernels } from './kernels/load.ts';
import { type SoftPoints, softSharesFast, thinCoresFast } from './kernels/softPointsFast.ts';

/** `thinCoresFast` where the kernels are there, else null: who solves soft points has the plain twin. */
export function thinCores(of: SoftPoints, places: Int32Array, explain: boolean): Uint8Array | null {
  const fast = kernels();
  return fast && thinCoresFast(fast, of, places, explain);
}

/** `softSharesFast` where the kernels are there, else null. */
export function softShares(
  of: SoftPoints,
  places: Int32Array,
  planeCount: number,
  winners: Uint8Array,
  shared: Int32Array,
  shares: Uint8Array,
): number | null {
  const fast = kernels();
  return fast && softSharesFast(fast, of, places, planeCount, winners, shared, shares);
}
