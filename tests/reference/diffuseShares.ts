import { ErrorRows } from '../../core/raster/errorRows.ts';
import { blankMask, type Mask, setBit } from '../../core/raster/index.ts';
import type { Px } from '../../core/units/index.ts';

/** Shares are carried in 64ths of a level, so that rounding loses no tone on long slopes. */
const FINE = 64;

/**
 * A way that the program does not take, to measure its own (`errorDiffuseMixtures`) against.
 *
 * Shares of several inks as points of one ink each, by error diffusion (R. W. Floyd, L. Steinberg, 1976) of all shares at once,
 * in turns from left to right and from right to left: each point takes the ink whose share, with what its neighbours missed,
 * is the largest. Only inks that a mixture names appear in it, and each in its own measure: what is missed of one ink is
 * never made good by others, which diffusing colours does, and drifts.
 *
 * `planes` hold one byte a point, in sum 255; plane 0 is bare and leaves no ink, plane k inks mask k − 1 of the result. Where
 * one share is whole its ink (or bare) is taken as it is, and nothing is passed on: flat parts stay flat.
 */
export function diffuseShares(planes: readonly Uint8Array[], width: Px, height: Px): Mask[] {
  const count = planes.length;
  if (count === 0 || planes.some((plane) => plane.length < width * height))
    throw new RangeError(`Shares of ${width} × ${height} points are needed, bare's among them.`);
  const out = planes.slice(1).map(() => blankMask(width, height));
  const rows = new ErrorRows(count, width);
  const wanted = new Int32Array(count);
  for (let y = 0; y < height; y++) {
    rows.begin();
    const backwards = (y & 1) === 1;
    const dir = backwards ? -1 : 1;
    for (let n = 0, x = backwards ? width - 1 : 0; n < width; n++, x += dir) {
      const i = y * width + x;
      let best = -0x7fffffff;
      let chosen = 0;
      let whole = false;
      for (let k = 0; k < count; k++) {
        const share = planes[k]![i]!;
        // A share of none stays none: an ink's debt is not paid where it has no part.
        const sum = share === 0 ? -0x3fffffff : share * FINE + rows.owed(x, k);
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
      if (whole) rows.drop();
      else
        for (let k = 0; k < count; k++) {
          const had = planes[k]![i] === 0 ? rows.owed(x, k) : wanted[k]!;
          rows.pass(x, k, had - (k === chosen ? 255 * FINE : 0), dir);
        }
      if (chosen > 0) {
        setBit(out[chosen - 1]!, x, y);
      }
    }
    rows.end(dir);
  }
  return out;
}
