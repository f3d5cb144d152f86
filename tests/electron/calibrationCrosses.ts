import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Bits, popplerPage } from '../reference/filmPages.ts';

export type Place = readonly [x: number, y: number];

const DPI = 600;
const PX = DPI / 25.4;

/** The constant of the straight line through points, by least squares: its value at 0. */
function atZero(points: readonly Place[]): number {
  const n = points.length;
  const [sx, sy] = [0, 1].map((k) => points.reduce((sum, p) => sum + p[k]!, 0)) as [number, number];
  const [sxx, sxy] = [0, 1].map((k) => points.reduce((sum, p) => sum + p[0] * p[k]!, 0)) as [number, number];
  return (sy * sxx - sx * sxy) / (n * sxx - sx * sx);
}

/**
 * A cross about (x, y) mm: where the lines of its two outer arms meet, each felt from 2 to 4.8 mm out, clear of rulers and
 * numbers. `out` says which way outwards is.
 */
function crossAt(page: Bits, x: number, y: number, out: Place): Place {
  const arm = (upright: boolean): number => {
    const points: Place[] = [];
    for (let far = Math.ceil(2 * PX); far < 4.8 * PX; far++) {
      let [sum, n] = [0, 0];
      for (let aside = Math.round(-1.2 * PX); aside <= 1.2 * PX; aside++) {
        const i = Math.round(x * PX) + (upright ? aside : out[0] * far);
        const j = Math.round(page.height - y * PX) - (upright ? out[1] * far : aside);
        if (page.at[j * page.width + i] === 1) [sum, n] = [sum + aside, n + 1];
      }
      if (n > 0) points.push([far, sum / n]);
    }
    if (points.length < 2 * PX) throw new Error(`There is no cross about ${x}, ${y} mm.`);
    return atZero(points) / PX;
  };
  return [Math.round(x * PX) / PX + arm(true), y + arm(false)];
}

/**
 * The four crosses of an A4 calibration sheet (170 × 250 mm, about the page's middle) in the order of their numbers, mm from
 * the page's lower left corner, found in the page as poppler shows it.
 */
export function crossesOn(pdf: string): [Place, Place, Place, Place] {
  const dir = mkdtempSync(join(tmpdir(), 'kickflat-crosses-'));
  try {
    const page = popplerPage(pdf, 1, DPI, dir);
    const at = (out: Place) => crossAt(page, 105 + out[0] * 85, 148.5 + out[1] * 125, out);
    return [at([-1, -1]), at([1, -1]), at([1, 1]), at([-1, 1])];
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
}
