/**
 * A layer of ink that scatters and absorbs, as its two optical constants for one band of light: `r0` is its reflectance
 * over ideal black, `t2` its transmittance squared. Reflectances are shares, 0 to 1, without surface gloss.
 */
export interface Layer {
  readonly r0: number;
  readonly t2: number;
}

/**
 * Reflectance of the layer over a substrate of reflectance `under`: R = R0 + T² Rg / (1 − R0 Rg).
 * P. Kubelka, J. Opt. Soc. Am. 38, 448, 1948 (light that goes to and fro between layer and substrate).
 */
export const layerOver = ({ r0, t2 }: Layer, under: number): number => r0 + (t2 * under) / (1 - r0 * under);

/**
 * The layer of thickness `x` with absorption `k` and scattering `s` per unit of thickness (Kubelka–Munk, hyperbolic
 * solution of 1948; without absorption its limit, without scattering the law of Beer and Lambert).
 */
export function layerOf(k: number, s: number, x: number): Layer {
  if (s <= 0) return { r0: 0, t2: Math.exp(-2 * k * x) };
  if (k <= 0) return { r0: (s * x) / (s * x + 1), t2: 1 / (s * x + 1) ** 2 };
  const a = 1 + k / s;
  const b = Math.sqrt(a * a - 1);
  const bsx = b * s * x;
  // sinh and cosh both scaled by 2·e^−bsx, so that a thick layer does not overflow.
  const e2 = Math.exp(-2 * bsx);
  const sinh = 1 - e2;
  const cosh = 1 + e2;
  const below = a * sinh + b * cosh;
  const t = (2 * b * Math.exp(-bsx)) / below;
  return { r0: sinh / below, t2: t * t };
}

/** Absorption over scattering of an opaque thickness of reflectance `r`: (1 − R)² / 2R. */
export const kOverS = (r: number): number => (1 - r) ** 2 / (2 * r);

/** Reflectance of an opaque thickness: 1 + q − √(q² + 2q), q = K/S. */
export const reflectanceOfKOverS = (q: number): number => 1 + q - Math.sqrt(q * q + 2 * q);

/**
 * The layer that shows `overBlack` on a card of reflectance `black` and `overWhite` on one of reflectance `white`.
 * Both cards give one equation R = R0 + T² Rg / (1 − R0 Rg); eliminating T² leaves R0 linear. Readings that no layer can give
 * (darker over white than over black) are brought back to the nearest that one can.
 */
export function layerFromReadings(overBlack: number, overWhite: number, black = 0, white = 1): Layer {
  const above = white * overBlack - black * overWhite;
  const below = white - black + white * black * (overBlack - overWhite);
  const r0 = Math.min(0.999, Math.max(0, above / below));
  const t2 = Math.max(0, ((overWhite - r0) * (1 - r0 * white)) / white);
  return { r0, t2: Math.min(t2, (1 - r0) ** 2) };
}
