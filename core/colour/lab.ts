import { type LinearRgb, linearOfHex } from './srgb.ts';

/** CIELAB for the 2° observer; white D65 from x 0.3127, y 0.3290. l: 0 (black) to 100 (white). */
export interface Lab {
  readonly l: number;
  readonly a: number;
  readonly b: number;
}

/** Linear sRGB to XYZ, worked out from the primaries of IEC 61966-2-1 (not its 4-digit rounding). */
const TO_XYZ = [
  0.4123907992659595, 0.357584339383878, 0.1804807884018343, 0.2126390058715104, 0.7151686787677559,
  0.0721923153607337, 0.0193308187155918, 0.119194779794626, 0.9505321522496606,
] as const;
const WHITE_X = 0.3127 / 0.329;
const WHITE_Z = (1 - 0.3127 - 0.329) / 0.329;

/** CIE 15: the cube root, with the straight part near black. */
const f = (t: number): number => (t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116);

/** Slope of `f` on its curved part, where `FLARE` keeps everything. */
const slope = (t: number): number => 1 / (3 * Math.cbrt(t) ** 2);

/** Relative luminance Y, 0 to 1. */
export const luminanceOfLinear = ([r, g, b]: LinearRgb): number =>
  TO_XYZ[3] * r + TO_XYZ[4] * g + TO_XYZ[5] * b;

export const luminanceOfHex = (hex: string): number => luminanceOfLinear(linearOfHex(hex));

export function labOfLinear([r, g, b]: LinearRgb): Lab {
  const x = f((TO_XYZ[0] * r + TO_XYZ[1] * g + TO_XYZ[2] * b) / WHITE_X);
  const y = f(TO_XYZ[3] * r + TO_XYZ[4] * g + TO_XYZ[5] * b);
  const z = f((TO_XYZ[6] * r + TO_XYZ[7] * g + TO_XYZ[8] * b) / WHITE_Z);
  return { l: 116 * y - 16, a: 500 * (x - y), b: 200 * (y - z) };
}

/** Light that any print throws back beside its colour, a share of white: without it the deepest darks would outweigh all else. */
const FLARE = 0.02;

/**
 * How much a small change of each channel of light shows at a colour, as a 3 × 3 matrix by rows into `out`: the slopes of
 * CIELAB, chroma in the measure of CIEDE2000 (its weight S_C, CIE 142, for both a and b), brought to the size of light so that the
 * sum of squares is 3. Equal lengths after it look about equally far apart, near that colour.
 */
export function seenSlopes(r: number, g: number, b: number, out: Float64Array): void {
  const x = (TO_XYZ[0] * r + TO_XYZ[1] * g + TO_XYZ[2] * b) / WHITE_X;
  const y = TO_XYZ[3] * r + TO_XYZ[4] * g + TO_XYZ[5] * b;
  const z = (TO_XYZ[6] * r + TO_XYZ[7] * g + TO_XYZ[8] * b) / WHITE_Z;
  const weight = 1 / (1 + 0.045 * Math.hypot(500 * (f(x) - f(y)), 200 * (f(y) - f(z))));
  const [sx, sy, sz] = [slope(x + FLARE) / WHITE_X, slope(y + FLARE), slope(z + FLARE) / WHITE_Z];
  let sum = 0;
  for (let c = 0; c < 3; c++) {
    const fx = sx * TO_XYZ[c as 0];
    const fy = sy * TO_XYZ[(3 + c) as 3];
    const fz = sz * TO_XYZ[(6 + c) as 6];
    out[c] = 116 * fy;
    out[3 + c] = weight * 500 * (fx - fy);
    out[6 + c] = weight * 200 * (fy - fz);
    sum += out[c]! ** 2 + out[3 + c]! ** 2 + out[6 + c]! ** 2;
  }
  const scale = Math.sqrt(3 / sum);
  for (let k = 0; k < 9; k++) out[k]! *= scale;
}

export const labOfHex = (hex: string): Lab => labOfLinear(linearOfHex(hex));
