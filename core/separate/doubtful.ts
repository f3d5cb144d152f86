import type { Picture } from '../raster/index.ts';
import { LIKELY } from './cores.ts';
import { FAR, LABEL, type Labels, NEAR_LEVELS } from './labels.ts';

/** Points of 9 that must look most like one label to make its middle likely: a strip two points wide has 6, its ends 5. */
const ENOUGH = 5;

/**
 * In compressed art a narrow area whose colour lies close to another label's has no point that is clearly its own, and would go to
 * whatever it touches. A point at which most of the nine about it look most like one label, and are not far from it, is likely
 * that label's: adds these to `cores`. `soft` names the points without a sure core.
 */
export function addDoubtfulCores(
  cores: Uint8Array,
  soft: Int32Array,
  codes: Uint8Array,
  labels: Labels,
  { width, height, data }: Picture,
): void {
  const near = (i: number, label: number): boolean => {
    const code = codes[i]!;
    if ((code & LABEL) !== label) return false;
    if (!(code & FAR)) return true;
    const alpha = data[4 * i + 3]!;
    let sum = (alpha - labels.colour[4 * label + 3]!) ** 2;
    for (let c = 0; c < 3; c++)
      sum += ((data[4 * i + c]! * alpha) / 255 - labels.colour[4 * label + c]!) ** 2;
    return sum <= NEAR_LEVELS * NEAR_LEVELS;
  };
  for (let k = 0; k < soft.length; k++) {
    const i = soft[k]!;
    const label = codes[i]! & LABEL;
    if (cores[i] !== 0 || !near(i, label)) continue;
    const x = i % width;
    const y = (i - x) / width;
    let count = 0;
    for (let v = Math.max(0, y - 1); v <= Math.min(height - 1, y + 1); v++)
      for (let u = Math.max(0, x - 1); u <= Math.min(width - 1, x + 1); u++)
        if (near(v * width + u, label)) count++;
    if (count >= ENOUGH) cores[i] = label | LIKELY;
  }
}
