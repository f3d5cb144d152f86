import type { Px } from '../units/index.ts';
import { ErrorRows } from './errorRows.ts';
import { blankMask, type Mask, setBit } from './mask.ts';

/** Light in whole numbers: 1 is SCALE. Three squared differences of at most 2 SCALE fit 31 bits. */
const SCALE = 8192;

/**
 * Shares of several inks as points of one ink each, by error diffusion (R. W. Floyd, L. Steinberg, 1976) of the colours they
 * mix to, in linear light and in turns from left to right and from right to left: each point takes the colour nearest to the
 * mixture with what its neighbours missed, so that the grain is as small as the colours allow. Mixtures lie among the colours
 * by nature, so that errors stay small and nothing drifts; diffusing the shares themselves gives each ink its own measure
 * but a coarser grain (tests/reference/indexPhotographs has both).
 *
 * `planes` hold one byte a point, in sum 255; plane 0 is bare and leaves no ink, plane k inks mask k − 1 of the result;
 * `colours` are their light, 0 to 1, in the same order. Where one share is whole its ink (or bare) is taken as it is, and nothing is
 * passed on: flat parts stay flat.
 */
export function errorDiffuseMixtures(
  planes: readonly Uint8Array[],
  colours: readonly (readonly [number, number, number])[],
  width: Px,
  height: Px,
): Mask[] {
  const count = planes.length;
  if (count === 0 || count !== colours.length || planes.some((plane) => plane.length < width * height))
    throw new RangeError(
      `Shares of ${width} × ${height} points and as many colours are needed, bare's among them.`,
    );
  const out = planes.slice(1).map(() => blankMask(width, height));
  const palette = Int32Array.from(colours.flatMap((colour) => colour.map((v) => Math.round(v * SCALE))));
  const rows = new ErrorRows(3, width);
  const wanted = new Int32Array(3);
  for (let y = 0; y < height; y++) {
    rows.begin();
    const backwards = (y & 1) === 1;
    const dir = backwards ? -1 : 1;
    for (let n = 0, x = backwards ? width - 1 : 0; n < width; n++, x += dir) {
      const i = y * width + x;
      let whole = -1;
      let [r, g, b] = [0, 0, 0];
      for (let k = 0; k < count; k++) {
        const share = planes[k]![i]!;
        if (share === 255) {
          whole = k;
          break;
        }
        r += share * palette[3 * k]!;
        g += share * palette[3 * k + 1]!;
        b += share * palette[3 * k + 2]!;
      }
      let chosen = whole;
      if (whole >= 0) rows.drop();
      else {
        wanted[0] = Math.round(r / 255) + rows.owed(x, 0);
        wanted[1] = Math.round(g / 255) + rows.owed(x, 1);
        wanted[2] = Math.round(b / 255) + rows.owed(x, 2);
        let best = Infinity;
        for (let k = 0; k < count; k++) {
          const dr = wanted[0]! - palette[3 * k]!;
          const dg = wanted[1]! - palette[3 * k + 1]!;
          const db = wanted[2]! - palette[3 * k + 2]!;
          const distance = dr * dr + dg * dg + db * db;
          if (distance < best) {
            best = distance;
            chosen = k;
          }
        }
        for (let c = 0; c < 3; c++) rows.pass(x, c, wanted[c]! - palette[3 * chosen + c]!, dir);
      }
      if (chosen > 0) {
        setBit(out[chosen - 1]!, x, y);
      }
    }
    rows.end(dir);
  }
  return out;
}
