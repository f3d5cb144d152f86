import type { Px } from '../units/index.ts';
import { blankMask, type Mask } from './mask.ts';

/** Shares are carried in 64ths of a level, so that rounding loses no tone on long slopes. */
const FINE = 64;

/**
 * Shares of several inks as points of one ink each, by error diffusion (R. W. Floyd, L. Steinberg, 1976) of all shares at once,
 * in turns from left to right and from right to left: each point takes the ink whose share, with what its neighbours missed,
 * is the largest. Only inks that a mixture names appear in it, and each in its own measure: what is missed of one ink is
 * never made good by others, which diffusing colours does, and drifts.
 *
 * `planes` hold one byte a point, in sum 255; plane 0 is bare and leaves no ink, plane k inks mask k − 1 of the result. Where
 * one share is whole its ink (or bare) is taken as it is, and nothing is passed on: flat parts stay flat.
 */
export function errorDiffuseShares(planes: readonly Uint8Array[], width: Px, height: Px): Mask[] {
  const count = planes.length;
  if (count === 0 || planes.some((plane) => plane.length < width * height))
    throw new RangeError(`Shares of ${width} × ${height} points are needed, bare's among them.`);
  const out = planes.slice(1).map(() => blankMask(width, height));
  let errors = new Int32Array(count * (width + 2));
  let next = new Int32Array(count * (width + 2));
  const carry = new Int32Array(count);
  const wanted = new Int32Array(count);
  for (let y = 0; y < height; y++) {
    next.fill(0);
    carry.fill(0);
    const backwards = (y & 1) === 1;
    const dir = backwards ? -1 : 1;
    for (let n = 0, x = backwards ? width - 1 : 0; n < width; n++, x += dir) {
      const i = y * width + x;
      const e = count * (x + 1);
      let best = -0x7fffffff;
      let chosen = 0;
      let whole = false;
      for (let k = 0; k < count; k++) {
        const share = planes[k]![i]!;
        // A share of none stays none: an ink's debt is not paid where it has no part.
        const sum = share === 0 ? -0x3fffffff : share * FINE + (errors[e + k]! >> 4) + carry[k]!;
        wanted[k] = sum;
        if (sum > best || share === 255) {
          best = sum;
          chosen = k;
        }
        if (share === 255) {
          whole = true;
          break;
        }
      }
      if (whole) carry.fill(0);
      else
        for (let k = 0; k < count; k++) {
          const had = planes[k]![i] === 0 ? (errors[e + k]! >> 4) + carry[k]! : wanted[k]!;
          const missed = had - (k === chosen ? 255 * FINE : 0);
          carry[k] = (7 * missed) >> 4;
          const [behind, ahead] = [e + k - count * dir, e + k + count * dir];
          next[behind] = next[behind]! + 3 * missed;
          next[e + k] = next[e + k]! + 5 * missed;
          next[ahead] = next[ahead]! + 16 * missed - 8 * missed - 16 * carry[k]!;
        }
      if (chosen > 0) {
        const mask = out[chosen - 1]!;
        const word = y * mask.stride + (x >>> 5);
        mask.data[word] = mask.data[word]! | (1 << (x & 31));
      }
    }
    // What would fall beside the row goes straight down.
    const end = count * (backwards ? 1 : width);
    for (let k = 0; k < count; k++) {
      next[count + k] = next[count + k]! + next[k]!;
      next[count * width + k] = next[count * width + k]! + next[count * (width + 1) + k]!;
      next[end + k] = next[end + k]! + 16 * carry[k]!;
    }
    [errors, next] = [next, errors];
  }
  return out;
}
