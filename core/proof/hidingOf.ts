import { luminanceOfHex } from '../colour/index.ts';

/**
 * The share of what lies under it that a measured pass hides: 1 less the difference of its luminous reflectances over a white and
 * a black card, as the linear mix takes it (over = opacity × ink + (1 − opacity) × under, so that white less black leaves
 * 1 − opacity). Cards are taken as ideal. 0 to 1.
 */
export function hidingOf(measured: { readonly overBlackHex: string; readonly overWhiteHex: string }): number {
  const left = luminanceOfHex(measured.overWhiteHex) - luminanceOfHex(measured.overBlackHex);
  return Math.max(0, Math.min(1, 1 - left));
}
