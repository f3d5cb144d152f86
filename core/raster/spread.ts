import type { Px } from '../units/index.ts';
import { kernels } from './kernels/load.ts';
import { spreadFast } from './kernels/spreadFast.ts';
import { type SpreadWay, spreadPlain } from './kernels/spreadPlain.ts';
import { type Mask, sameSize } from './mask.ts';

/**
 * Rows `from` to before `to` of `seed` and of what it spreads over, into the same rows of `out`: for every way the points of `into`,
 * but none of `keepOut`, that lie within `radius` of the seed and that `addJoinedWithin` reaches from it. Masks have one size; `out` is blank and none of the others.
 */
export function spreadRows(
  seed: Mask,
  ways: readonly SpreadWay[],
  keepOut: Mask | null,
  from: Px,
  to: Px,
  out: Mask,
): void {
  for (const mask of [out, ...ways.map(({ into }) => into), ...(keepOut ? [keepOut] : [])])
    sameSize(seed, mask);
  const fast = seed.width > 0 && from < to ? kernels() : null;
  if (fast) spreadFast(fast, seed, ways, keepOut, from, to, out);
  else spreadPlain(seed, ways, keepOut, from, to, out);
}
