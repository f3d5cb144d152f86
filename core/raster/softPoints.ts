import { kernels } from './kernels/load.ts';
import {
  explainedCoresFast,
  type SoftPoints,
  softSharesFast,
  type ThinCores,
  thinCoresFast,
} from './kernels/softPointsFast.ts';

/** `thinCoresFast` where the kernels are there, else null: who solves soft points has the plain twin. */
export function thinCores(of: SoftPoints, places: Int32Array): ThinCores | null {
  const fast = kernels();
  return fast && thinCoresFast(fast, of, places);
}

/** `explainedCoresFast` where the kernels are there, else null. */
export function explainedCores(of: SoftPoints, places: Int32Array): Int32Array | null {
  const fast = kernels();
  return fast && explainedCoresFast(fast, of, places);
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
