import type { Picture, SparseCoverage } from '../raster/index.ts';
import { type Changes, colourOf, pointsOf } from './changedShares.ts';
import type { Labels } from './labels.ts';

/** A share from which on a point without a pure neighbour of its ink is a hairline, 255ths: as `HAIRLINE_SHARE` of edge.ts. */
const HAIRLINE = 89;
/** Encoded levels: what a side of a hairline differs from its ground at least, and what a mix of both may leave unexplained. */
const DIFFERS = 8;
const UNEXPLAINED = 14;
/** The least share that is told, 255ths, and the most: more were a hairline itself. */
const LEAST = 8;
const MOST = 128;
/** Points about a side in which its ground's own colour is looked for. */
const REACH = 2;

/**
 * A line thinner than a point lies over two rows of points, and where one of them has less than a third of it, that row is taken for
 * ground: nothing pure of the line's ink is about. Beside a point that is a hairline such a share belongs to the line. `soft` names
 * the points without a sure core.
 */
export function hairlineSides(
  { data }: Picture,
  coverage: SparseCoverage,
  labels: Labels,
  soft: Int32Array,
): Changes {
  const { width, height, planeCount, winners, shared, shares } = coverage;
  const points = pointsOf(coverage);
  const isSoft = new Uint8Array((width * height + 7) >> 3);
  for (let k = 0; k < soft.length; k++) isSoft[soft[k]! >> 3]! |= 1 << (soft[k]! & 7);
  const softAt = (i: number) => ((isSoft[i >> 3]! >> (i & 7)) & 1) === 1;
  /** Whether one of the points about i within `reach` is found. */
  const some = (i: number, reach: number, found: (j: number) => boolean): boolean => {
    const x = i % width;
    const y = (i - x) / width;
    for (let v = Math.max(0, y - reach); v <= Math.min(height - 1, y + reach); v++)
      for (let u = Math.max(0, x - reach); u <= Math.min(width - 1, x + reach); u++)
        if (v * width + u !== i && found(v * width + u)) return true;
    return false;
  };
  /** Whether the ink is nowhere pure about point i. */
  const isAlone = (i: number, ink: number): boolean => {
    const x = i % width;
    const y = (i - x) / width;
    for (let v = Math.max(0, y - 1); v <= Math.min(height - 1, y + 1); v++)
      for (let j = v * width + Math.max(0, x - 1); j <= v * width + Math.min(width - 1, x + 1); j++)
        if (winners[j] === ink && !softAt(j)) return false;
    return true;
  };
  /** The bytes of point j as a mix of its ground and the line's ink; null where it is none. */
  const sideOf = (j: number, ink: number): Uint8Array | null => {
    const ground = winners[j]!;
    let under = -1;
    const isGround = (i: number) => {
      if (winners[i] !== ground || softAt(i)) return false;
      under = i;
      return true;
    };
    if (ground === ink || points.find(j) >= 0 || !some(j, REACH, isGround)) return null;
    const from = colourOf(data, under);
    const own = colourOf(data, j);
    const label = labels.plane.indexOf(ink);
    const way = from.map((v, c) => labels.colour[4 * label + c]! - v);
    const off = own.map((v, c) => v - from[c]!);
    const length = way.reduce((sum, v) => sum + v * v, 0);
    if (length === 0 || Math.hypot(...off) <= DIFFERS) return null;
    const share = way.reduce((sum, v, c) => sum + v * off[c]!, 0) / length;
    if (Math.hypot(...off.map((v, c) => v - share * way[c]!)) > UNEXPLAINED) return null;
    const byte = Math.min(MOST, Math.round(255 * share));
    if (byte < LEAST) return null;
    const bytes = new Uint8Array(planeCount);
    bytes[ground] = 255 - byte;
    bytes[ink] = byte;
    return bytes;
  };
  const sides = new Map<number, Uint8Array>();
  for (let k = 0; k < shared.length; k++)
    for (let ink = 1; ink < planeCount; ink++)
      if (shares[k * planeCount + ink]! >= HAIRLINE && isAlone(shared[k]!, ink))
        some(shared[k]!, 1, (j) => {
          const side = softAt(j) ? sideOf(j, ink) : null;
          if (side) sides.set(j, side);
          return false;
        });
  return sides;
}
