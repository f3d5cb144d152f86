import type { Px } from '../units/index.ts';
import { kernels } from './kernels/load.ts';
import { pureCoresFast } from './kernels/pureCoresFast.ts';

/** `pureCoresFast` where the kernels are there; returns whether they are: who looks for cores has the plain twin. */
export function pureCores(
  words: Int32Array,
  codes: Uint8Array,
  width: Px,
  height: Px,
  cores: Uint8Array,
  found: (places: Int32Array) => void,
): boolean {
  const fast = width > 0 && height > 0 ? kernels() : null;
  if (fast) pureCoresFast(fast, words, codes, width, height, cores, found);
  return fast !== null;
}
