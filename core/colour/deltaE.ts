import type { Lab } from './lab.ts';

const DEG = Math.PI / 180;
const POW_25_7 = 25 ** 7;
/** Degrees: hues this near to opposite count as opposite, as the rounding of an arctangent must not choose the branch. */
const OPPOSITE = 1e-9;

const hueOf = (a: number, b: number): number => {
  if (a === 0 && b === 0) return 0;
  const h = Math.atan2(b, a) / DEG;
  return h < 0 ? h + 360 : h;
};

/**
 * CIEDE2000 with kL = kC = kH = 1: about 1 is just seen side by side. Formula and branches after G. Sharma, W. Wu and
 * E. N. Dalal, Color Research and Application 30(1), 21–30, 2005.
 */
export function deltaE00(one: Lab, two: Lab): number {
  const meanC = (Math.hypot(one.a, one.b) + Math.hypot(two.a, two.b)) / 2;
  const c7 = meanC ** 7;
  const g = 0.5 * (1 - Math.sqrt(c7 / (c7 + POW_25_7)));
  const a1 = one.a * (1 + g);
  const a2 = two.a * (1 + g);
  const c1 = Math.hypot(a1, one.b);
  const c2 = Math.hypot(a2, two.b);
  const h1 = hueOf(a1, one.b);
  const h2 = hueOf(a2, two.b);

  let dh = h2 - h1;
  let meanH = h1 + h2;
  if (c1 * c2 === 0) dh = 0;
  else {
    const wraps = Math.abs(dh) > 180 + OPPOSITE;
    if (wraps) dh += dh > 0 ? -360 : 360;
    meanH = wraps ? (h1 + h2 < 360 ? h1 + h2 + 360 : h1 + h2 - 360) / 2 : (h1 + h2) / 2;
  }
  const dL = two.l - one.l;
  const dC = c2 - c1;
  const dH = 2 * Math.sqrt(c1 * c2) * Math.sin((dh / 2) * DEG);
  const meanL = (one.l + two.l) / 2;
  const meanCp = (c1 + c2) / 2;

  const t =
    1 -
    0.17 * Math.cos((meanH - 30) * DEG) +
    0.24 * Math.cos(2 * meanH * DEG) +
    0.32 * Math.cos((3 * meanH + 6) * DEG) -
    0.2 * Math.cos((4 * meanH - 63) * DEG);
  const off = (meanL - 50) ** 2;
  const sL = 1 + (0.015 * off) / Math.sqrt(20 + off);
  const sC = 1 + 0.045 * meanCp;
  const sH = 1 + 0.015 * meanCp * t;
  const cp7 = meanCp ** 7;
  const turn = 30 * Math.exp(-(((meanH - 275) / 25) ** 2));
  const rT = -2 * Math.sqrt(cp7 / (cp7 + POW_25_7)) * Math.sin(2 * turn * DEG);
  const l = dL / sL;
  const c = dC / sC;
  const h = dH / sH;
  return Math.sqrt(Math.max(0, l * l + c * c + h * h + rT * c * h));
}
