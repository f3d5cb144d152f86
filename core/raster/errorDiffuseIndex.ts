import { blankMask, type Mask } from './mask.ts';
import type { Picture } from './picture.ts';

/** An sRGB colour, each channel 0 to 255. */
export type Rgb8 = readonly [number, number, number];

/** Linear light in whole numbers: 1 is SCALE. Three squared differences of at most 2 SCALE fit 31 bits. */
const SCALE = 8192;
const ROOM = SCALE;

/** sRGB levels to linear light (IEC 61966-2-1). */
const LINEAR = Int32Array.from({ length: 256 }, (_, level) => {
  const v = level / 255;
  return Math.round(SCALE * (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4));
});

/**
 * A picture as points of single inks, mixed by error diffusion (R. W. Floyd, L. Steinberg, 1976) in linear light, in turns
 * from left to right and from right to left: each point takes the colour nearest to what is wanted there, and passes on what it
 * missed. `colours[0]` is bare and leaves no ink; the result holds one mask for each further colour. Where the picture is
 * transparent, bare shows through; where it is fully so, the point stays bare.
 *
 * What no mixture of the colours can reach is cut off below −1 and above 2 (white is 1), so that errors do not pile up and
 * smear.
 */
export function errorDiffuseIndex(picture: Picture, colours: readonly Rgb8[]): Mask[] {
  const { width, height, data } = picture;
  const out = colours.slice(1).map(() => blankMask(width, height));
  if (colours.length === 0) throw new RangeError('Error diffusion needs at least the colour of bare ground.');
  const palette = Int32Array.from(colours.flatMap((colour) => colour.map((level) => LINEAR[level]!)));
  const ground = [palette[0]!, palette[1]!, palette[2]!] as const;
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
      const at = 4 * (y * width + x);
      const alpha = data[at + 3]!;
      if (alpha === 0) {
        carry.fill(0);
        continue;
      }
      const e = 3 * (x + 1);
      for (let c = 0; c < 3; c++) {
        const level = LINEAR[data[at + c]!]!;
        const seen = alpha === 255 ? level : Math.round((level * alpha + ground[c]! * (255 - alpha)) / 255);
        const sum = seen + (errors[e + c]! >> 4) + carry[c]!;
        wanted[c] = sum < -ROOM ? -ROOM : Math.min(sum, SCALE + ROOM);
      }
      let best = 0x7fffffff;
      let chosen = 0;
      for (let k = 0; k < palette.length; k += 3) {
        const r = wanted[0]! - palette[k]!;
        const g = wanted[1]! - palette[k + 1]!;
        const b = wanted[2]! - palette[k + 2]!;
        const distance = r * r + g * g + b * b;
        if (distance < best) {
          best = distance;
          chosen = k;
        }
      }
      for (let c = 0; c < 3; c++) {
        const missed = wanted[c]! - palette[chosen + c]!;
        carry[c] = (7 * missed) >> 4;
        // Kept in sixteenths: rounding every share would darken long slopes.
        const [behind, ahead] = [e + c - 3 * dir, e + c + 3 * dir];
        next[behind] = next[behind]! + 3 * missed;
        next[e + c] = next[e + c]! + 5 * missed;
        next[ahead] = next[ahead]! + 16 * missed - 8 * missed - 16 * carry[c]!;
      }
      if (chosen > 0) {
        const mask = out[chosen / 3 - 1]!;
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
