import type { Px } from '../../units/index.ts';
import { intersect, subtract } from '../algebra.ts';
import { grow } from '../grow.ts';
import { addJoinedWithin } from '../joinedWithin.ts';
import { copyMask, type Mask, rowsOf } from '../mask.ts';

/** Where ink may spread: over what is within `radius` of it in another mask, by a way of at most `steps` steps through that. */
export interface SpreadWay {
  readonly into: Mask;
  readonly radius: Px;
  readonly steps: number;
}

/** Rows farther off than a disc and a way together change nothing. */
export const spreadReach = (ways: readonly SpreadWay[]): number =>
  ways.reduce((most, { radius, steps }) => Math.max(most, Math.ceil(radius) + steps + 1), 0);

/** The readable definition of `spreadRows`. */
export function spreadPlain(
  seed: Mask,
  ways: readonly SpreadWay[],
  keepOut: Mask | null,
  from: Px,
  to: Px,
  out: Mask,
): void {
  const reach = spreadReach(ways);
  const [top, bottom] = [Math.max(0, from - reach), Math.min(seed.height, to + reach)];
  const part = (mask: Mask) => rowsOf(mask, top, bottom);
  const own = part(seed);
  const all = copyMask(own);
  for (const { into, radius, steps } of ways) {
    const room = intersect(grow(own, radius), part(into));
    if (keepOut) subtract(room, part(keepOut), room);
    addJoinedWithin(own, room, steps, all);
  }
  copyMask(rowsOf(all, from - top, to - top), rowsOf(out, from, to));
}
