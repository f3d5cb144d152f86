import { ErrorRows } from './errorRows.ts';
import { blankMask, type Mask, setBit } from './mask.ts';
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
  const rows = new ErrorRows(3, width);
  const wanted = new Int32Array(3);
  for (let y = 0; y < height; y++) {
    rows.begin();
    const backwards = (y & 1) === 1;
    const dir = backwards ? -1 : 1;
    for (let n = 0, x = backwards ? width - 1 : 0; n < width; n++, x += dir) {
      const at = 4 * (y * width + x);
      const alpha = data[at + 3]!;
      if (alpha === 0) {
        rows.drop();
        continue;
      }
      for (let c = 0; c < 3; c++) {
        const level = LINEAR[data[at + c]!]!;
        const seen = alpha === 255 ? level : Math.round((level * alpha + ground[c]! * (255 - alpha)) / 255);
        const sum = seen + rows.owed(x, c);
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
      for (let c = 0; c < 3; c++) rows.pass(x, c, wanted[c]! - palette[chosen + c]!, dir);
      if (chosen > 0) {
        setBit(out[chosen / 3 - 1]!, x, y);
      }
    }
    rows.end(dir);
  }
  return out;
}
