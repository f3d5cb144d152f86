import {
  blankMask,
  complement,
  grow,
  intersect,
  type Mask,
  shrink,
  subtract,
  union,
} from '../raster/index.ts';
import type { Px } from '../units/index.ts';

/** What a register error can uncover, and the words of the raster worth looking at. */
export interface Watched {
  /** Points where wood would be a fault: wanted, and not in the strip beside bare wood. */
  readonly wood: Mask;
  /** Points where the base would be a fault: not in its own white, nor in the strip beside it; blank without a base. */
  readonly base: Mask;
  /** Places (row × used words + word), ascending, of words in which some error within reach can show a fault. */
  readonly places: Int32Array;
}

/**
 * @param prints by place in the pull order
 * @param hidden the part of the base that lies beneath other inks, or null
 * @param own where the art shows the base itself, or null
 * @param reachPx no point of a pull moves farther than this
 */
export function watch(
  prints: readonly Mask[],
  wanted: Mask,
  basePlace: number,
  hidden: Mask | null,
  own: Mask | null,
  reachPx: Px,
): Watched {
  // Where some print covers everything within reach, it covers the point however it moves.
  const sure = blankMask(wanted.width, wanted.height);
  const sureAbove = blankMask(wanted.width, wanted.height);
  const deep = blankMask(wanted.width, wanted.height);
  for (const [place, print] of prints.entries()) {
    shrink(print, reachPx, deep);
    union(sure, deep, sure);
    if (place !== basePlace) union(sureAbove, deep, sureAbove);
  }
  const wood = shrink(wanted, reachPx);
  const open = subtract(wood, sure);
  const base = blankMask(wanted.width, wanted.height);
  if (hidden && own) {
    complement(grow(own, reachPx), base);
    union(open, subtract(intersect(grow(hidden, reachPx), base), sureAbove), open);
  }
  const used = (wanted.width + 31) >>> 5;
  const places: number[] = [];
  for (let y = 0; y < wanted.height; y++)
    for (let w = 0; w < used; w++) if (open.data[y * open.stride + w] !== 0) places.push(y * used + w);
  return { wood, base, places: Int32Array.from(places) };
}
