import { CURVE_TOLERANCE, type Pair } from './outlinePieces.ts';

/**
 * Points on a B-spline without weights, by de Boor's algorithm; null where knots and control points do not fit. Each
 * knot span is cut as fine as its control polygon's bow asks. `scale` turns its units into mm.
 */
export function splinePoints(
  control: readonly Pair[],
  knots: readonly number[],
  degree: number,
  scale: number,
): Pair[] | null {
  const n = control.length;
  if (!(degree >= 1 && degree <= 10) || n <= degree || knots.length !== n + degree + 1) return null;
  for (let i = 1; i < knots.length; i++) if (!((knots[i] as number) >= (knots[i - 1] as number))) return null;
  let bow = 0;
  for (let i = 2; i < n; i++) {
    const [a, b, c] = [control[i - 2] as Pair, control[i - 1] as Pair, control[i] as Pair];
    bow = Math.max(bow, Math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1]));
  }
  const pieces = Math.min(
    1000,
    Math.max(4, Math.ceil(Math.sqrt((degree * (degree - 1) * bow * scale) / (8 * CURVE_TOLERANCE)))),
  );
  const points: Pair[] = [];
  for (let span = degree; span < n; span++) {
    const from = knots[span] as number;
    const to = knots[span + 1] as number;
    if (to <= from) continue;
    for (let i = points.length ? 1 : 0; i <= pieces; i++)
      points.push(deBoor(control, knots, degree, span, from + ((to - from) * i) / pieces));
  }
  return points.length > 1 ? points : null;
}

function deBoor(
  control: readonly Pair[],
  knots: readonly number[],
  degree: number,
  span: number,
  x: number,
): Pair {
  const d = Array.from({ length: degree + 1 }, (_, j) => control[span - degree + j] as Pair);
  for (let r = 1; r <= degree; r++)
    for (let j = degree; j >= r; j--) {
      const low = knots[span - degree + j] as number;
      const high = knots[span + 1 + j - r] as number;
      const p = high > low ? (x - low) / (high - low) : 0;
      const [a, b] = [d[j - 1] as Pair, d[j] as Pair];
      d[j] = [(1 - p) * a[0] + p * b[0], (1 - p) * a[1] + p * b[1]];
    }
  return d[degree] as Pair;
}
