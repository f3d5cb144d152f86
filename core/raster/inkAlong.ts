import { inkAlongFast } from './kernels/inkAlongFast.ts';
import { inkAlongPlain, type PathOverInk } from './kernels/inkAlongPlain.ts';
import { kernels } from './kernels/load.ts';
import type { Mask } from './mask.ts';

/** The runs of looks along a path that meet ink of a small mask, `RUN` words each; beyond the mask there is none. */
export function inkAlong(mask: Mask, path: PathOverInk): Int32Array {
  const fast = kernels();
  return fast ? inkAlongFast(fast, mask, path) : inkAlongPlain(mask, path);
}
