import type { Px } from '../units/index.ts';
import { blankMask, type Mask } from './mask.ts';

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
  let errors = new Int32Array(3 * (width + 2));
  let next = new Int32Array(3 * (width + 2));
  const carry = new Int32Array(3);
  const wanted = new Int32Array(3);
  for (let y = 0; y < height; y++) {
    next.fill(0);
    carry.fill(0);
    const backwards = (y & 1) === 1;
    const dir = backwards ? -1 : 1;
    for (let n = 0, x = backwards ? width - 1 : 0; n < width; n++, x += dir) {
      const i = y * width + x;
      const e = 3 * (x + 1);
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
      if (whole >= 0) carry.fill(0);
      else {
        wanted[0] = Math.round(r / 255) + (errors[e]! >> 4) + carry[0]!;
        wanted[1] = Math.round(g / 255) + (errors[e + 1]! >> 4) + carry[1]!;
        wanted[2] = Math.round(b / 255) + (errors[e + 2]! >> 4) + carry[2]!;
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
        for (let c = 0; c < 3; c++) {
          const missed = wanted[c]! - palette[3 * chosen + c]!;
          carry[c] = (7 * missed) >> 4;
          // Kept in sixteenths: rounding every share would darken long slopes.
          const [behind, ahead] = [e + c - 3 * dir, e + c + 3 * dir];
          next[behind] = next[behind]! + 3 * missed;
          next[e + c] = next[e + c]! + 5 * missed;
          next[ahead] = next[ahead]! + 16 * missed - 8 * missed - 16 * carry[c]!;
        }
      }
      if (chosen > 0) {
        const mask = out[chosen - 1]!;
        const word = y * mask.stride + (x >>> 5);
        mask.data[word] = mask.data[word]! | (1 << (x & 31));
      }
    }
    // What would fall beside the row goes straight down.
    const end = 3 * (backwards ? 1 : width);
    for (let c = 0; c < 3; c++) {
      next[3 + c] = next[3 + c]! + next[c]!;
      next[3 * width + c] = next[3 * width + c]! + next[3 * width + 3 + c]!;
      next[end + c] = next[end + c]! + 16 * carry[c]!;
    }
    [errors, next] = [next, errors];
  }
  return out;
}
