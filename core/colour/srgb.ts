/** Red, green and blue of sRGB (IEC 61966-2-1), whole numbers 0 to 255, gamma-encoded. */
export type Rgb8 = readonly [r: number, g: number, b: number];
/** Red, green and blue as shares of light: sRGB primaries, linear, 0 to 1. */
export type LinearRgb = readonly [r: number, g: number, b: number];

/** `#rrggbb`, upper or lower case, to bytes. Throws on anything else: colours are checked where they come in. */
export function parseHex(hex: string): Rgb8 {
  if (!/^#[0-9a-f]{6}$/i.test(hex)) throw new RangeError(`A colour is written #rrggbb, not “${hex}”.`);
  const all = Number.parseInt(hex.slice(1), 16);
  return [all >>> 16, (all >>> 8) & 255, all & 255];
}

/** Bytes to `#rrggbb`, lower case; rounds, and clips to 0 to 255. */
export function toHex([r, g, b]: Rgb8): string {
  const byte = (v: number) => Math.max(0, Math.min(255, Math.round(v)));
  return `#${((1 << 24) | (byte(r) << 16) | (byte(g) << 8) | byte(b)).toString(16).slice(1)}`;
}

/** An encoded sRGB value, 0 to 1, to light, 0 to 1 (IEC 61966-2-1:1999, with 0.04045 as the knee). */
export const srgbToLinear = (encoded: number): number =>
  encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4;

/** Light, 0 to 1, to an encoded sRGB value, 0 to 1 (IEC 61966-2-1:1999). */
export const linearToSrgb = (light: number): number =>
  light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055;

/** Light for each of the 256 encoded bytes. */
export const LINEAR_OF_BYTE: Float64Array = Float64Array.from({ length: 256 }, (_, i) =>
  srgbToLinear(i / 255),
);

/** Light to the nearest encoded byte; clips to 0 to 1 first. */
export const byteOfLinear = (light: number): number =>
  Math.round(linearToSrgb(Math.max(0, Math.min(1, light))) * 255);

export const linearOfRgb8 = ([r, g, b]: Rgb8): LinearRgb => [
  LINEAR_OF_BYTE[r]!,
  LINEAR_OF_BYTE[g]!,
  LINEAR_OF_BYTE[b]!,
];

export const linearOfHex = (hex: string): LinearRgb => linearOfRgb8(parseHex(hex));

export const hexOfLinear = ([r, g, b]: LinearRgb): string =>
  toHex([byteOfLinear(r), byteOfLinear(g), byteOfLinear(b)]);
