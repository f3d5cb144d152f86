import { pressTrouble } from '../sentences/index.ts';
import { done, type Outcome } from '../units/index.ts';

export type Pair = readonly [number, number];

/** target ≈ scale · R(turn) · source + shift. Radians, positive from +x toward +y; mm. */
export interface Fit {
  readonly turnRad: number;
  readonly scale: number;
  readonly shift: Pair;
  /** mm, length of what is left at each pair. */
  readonly residuals: readonly number[];
  /** mm, √(sum of squared residuals / pairs). */
  readonly rms: number;
}

/** A point moved by a fit. */
export const moveBy = (
  { turnRad, scale, shift }: Pick<Fit, 'turnRad' | 'scale' | 'shift'>,
  [x, y]: Pair,
): Pair => {
  const c = scale * Math.cos(turnRad);
  const s = scale * Math.sin(turnRad);
  return [c * x - s * y + shift[0], s * x + c * y + shift[1]];
};

/**
 * Least squares fit of point pairs in the plane (S. Umeyama, IEEE Trans. PAMI 13(4), 1991; in the plane the closed form
 * with complex numbers z = Σ p̄q / Σ|p|² about the means). `withScale` false: a rigid move. Never mirrors. Needs two
 * pairs with different source points.
 */
export function fitPairs(source: readonly Pair[], target: readonly Pair[], withScale: boolean): Outcome<Fit> {
  const n = source.length;
  if (n !== target.length || n < 2) return pressTrouble.tooFewMarks(n);
  const mean = (list: readonly Pair[]): Pair => [
    list.reduce((a, p) => a + p[0], 0) / n,
    list.reduce((a, p) => a + p[1], 0) / n,
  ];
  const [p0, q0] = [mean(source), mean(target)];
  let re = 0;
  let im = 0;
  let size = 0;
  for (let i = 0; i < n; i++) {
    const [px, py] = [(source[i] as Pair)[0] - p0[0], (source[i] as Pair)[1] - p0[1]];
    const [qx, qy] = [(target[i] as Pair)[0] - q0[0], (target[i] as Pair)[1] - q0[1]];
    re += px * qx + py * qy;
    im += px * qy - py * qx;
    size += px * px + py * py;
  }
  if (!(size > 1e-12)) return pressTrouble.marksAtOnePlace();
  const turnRad = Math.atan2(im, re);
  const scale = withScale ? Math.hypot(re, im) / size : 1;
  const turned = moveBy({ turnRad, scale, shift: [0, 0] }, p0);
  const shift: Pair = [q0[0] - turned[0], q0[1] - turned[1]];
  const residuals = source.map((p, i) => {
    const [x, y] = moveBy({ turnRad, scale, shift }, p);
    return Math.hypot(x - (target[i] as Pair)[0], y - (target[i] as Pair)[1]);
  });
  const rms = Math.sqrt(residuals.reduce((a, r) => a + r * r, 0) / n);
  return done({ turnRad, scale, shift, residuals, rms });
}
