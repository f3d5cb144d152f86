import { LIKELY } from './cores.ts';
import { type EdgeSolver, explainWithout } from './edge.ts';
import { FAR, LABEL, NEAR_LEVELS } from './labels.ts';

/**
 * Points of 9 that must look most like one label to make its middle likely, and the encoded levels that the labels about must leave
 * unexplained: the soft edge between two labels may look like a third. A strip two points wide has 6, its ends 5. Bare is believed
 * sooner, for ink where none belongs is worse than a little less of it. Found by trial on the drawings and icons of tests/reference.
 */
const INK = { enough: 6, unlike: 14 } as const;
const BARE = { enough: 5, unlike: 10 } as const;

/**
 * In compressed art a narrow area whose colour lies close to another label's has no point that is clearly its own, and would go to
 * whatever it touches. A point at which most of the nine about it look most like one label, and are not far from it, is likely
 * that label's, unless the labels about explain it: adds these to the solver's cores. `soft` names the points without a sure core, `own`
 * the labels' colours as encoded.
 */
export function addDoubtfulCores(s: EdgeSolver, soft: Int32Array, own: Float64Array): void {
  const { codes, cores } = s;
  const { width, height, data } = s.picture;
  const near = (i: number, label: number): boolean => {
    const code = codes[i]!;
    if ((code & LABEL) !== label) return false;
    if (!(code & FAR)) return true;
    const alpha = data[4 * i + 3]!;
    let sum = (alpha - own[4 * label + 3]!) ** 2;
    for (let c = 0; c < 3; c++) sum += ((data[4 * i + c]! * alpha) / 255 - own[4 * label + c]!) ** 2;
    return sum <= NEAR_LEVELS * NEAR_LEVELS;
  };
  const added: number[] = [];
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
    const { enough, unlike } = s.labels.plane[label] === 0 ? BARE : INK;
    if (count >= enough && explainWithout(s, x, y, label, true) > unlike) added.push(i);
  }
  for (const i of added) cores[i] = (codes[i]! & LABEL) | LIKELY;
}
