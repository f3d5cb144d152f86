import { badInput, done, type Mm, type Outcome, type PlanPoint } from '../units/index.ts';
import type { Deck } from './deck.ts';
import { truckHoles } from './truckHoles.ts';

/** From a scan or photograph of a deck laid flat to its plan. */
export interface Squaring {
  /** Picture x, y (any unit) to plan, mm. */
  toPlan(x: number, y: number): PlanPoint;
  /** mm between the inner holes: as known, or as solved. */
  readonly wheelbase: Mm;
  /** Root mean square distance, mm, of the clicked holes from where the pattern has them. */
  readonly residual: Mm;
  readonly worst: Mm;
}

type Pair = readonly [number, number];

/** Solves a square system by elimination with row pivots; null where it has no single answer. */
function solve(rows: number[][]): number[] | null {
  const n = rows.length;
  for (let c = 0; c < n; c++) {
    let pivot = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(rows[r]![c]!) > Math.abs(rows[pivot]![c]!)) pivot = r;
    if (!(Math.abs(rows[pivot]![c]!) > 1e-12)) return null;
    [rows[c], rows[pivot]] = [rows[pivot]!, rows[c]!];
    for (let r = 0; r < n; r++) {
      if (r === c) continue;
      const by = rows[r]![c]! / rows[c]![c]!;
      for (let k = c; k <= n; k++) rows[r]![k]! -= by * rows[c]![k]!;
    }
  }
  return rows.map((row, i) => row[n]! / row[i]!);
}

/** Moves points to mean 0 and mean distance √2, which keeps the equations well posed (Hartley 1997). */
function normal(points: readonly Pair[]) {
  const n = points.length;
  const cx = points.reduce((sum, p) => sum + p[0], 0) / n;
  const cy = points.reduce((sum, p) => sum + p[1], 0) / n;
  const scale =
    (Math.SQRT2 * n) / (points.reduce((sum, p) => sum + Math.hypot(p[0] - cx, p[1] - cy), 0) || 1);
  return { cx, cy, scale };
}

/** Least-squares homography with its last element 1, from → to, on normalised points; null where points are in line. */
function homography(from: readonly Pair[], to: readonly Pair[]): ((x: number, y: number) => Pair) | null {
  const a = normal(from);
  const b = normal(to);
  const sums = Array.from({ length: 8 }, () => new Array<number>(9).fill(0));
  const add = (row: readonly number[]) => {
    for (let i = 0; i < 8; i++) for (let k = 0; k < 9; k++) sums[i]![k]! += row[i]! * row[k]!;
  };
  from.forEach((p, i) => {
    const [x, y] = [(p[0] - a.cx) * a.scale, (p[1] - a.cy) * a.scale];
    const [u, v] = [(to[i]![0] - b.cx) * b.scale, (to[i]![1] - b.cy) * b.scale];
    add([x, y, 1, 0, 0, 0, -u * x, -u * y, u]);
    add([0, 0, 0, x, y, 1, -v * x, -v * y, v]);
  });
  const h = solve(sums);
  if (!h) return null;
  return (px, py) => {
    const [x, y] = [(px - a.cx) * a.scale, (py - a.cy) * a.scale];
    const w = h[6]! * x + h[7]! * y + 1;
    return [
      (h[0]! * x + h[1]! * y + h[2]!) / w / b.scale + b.cx,
      (h[3]! * x + h[4]! * y + h[5]!) / w / b.scale + b.cy,
    ];
  };
}

/** mm: wheelbases tried when it is not known, coarsely by this step and then by golden section. */
const WHEELBASES: readonly [Mm, Mm, Mm] = [250, 1000, 5];

/**
 * Squares a picture from its eight truck holes, clicked in the order of `truckHoles` (tail to nose, the lower of each
 * pair first, as the drawn face is seen, +y up). With `wheelbase` null it is solved too: the one whose pattern fits
 * the clicks best.
 */
export function squareOutline(deck: Deck, clicked: readonly Pair[], wheelbase: Mm | null): Outcome<Squaring> {
  const mend = 'Click the eight truck holes again, tail to nose, the lower of each pair first.';
  if (clicked.length !== 8 || !clicked.every(([x, y]) => Number.isFinite(x) && Number.isFinite(y)))
    return badInput(`Eight truck holes were expected and ${clicked.length} came.`, mend);
  const fitAt = (wb: Mm) => {
    const to = truckHoles({ ...deck, wheelbase: wb }, 'bottom').map(({ x, y }): Pair => [x, y]);
    const map = homography(clicked, to);
    if (!map) return null;
    const off = clicked.map(([x, y], i) => {
      const [u, v] = map(x, y);
      return Math.hypot(u - to[i]![0], v - to[i]![1]);
    });
    return { map, residual: Math.sqrt(off.reduce((sum, d) => sum + d * d, 0) / 8), worst: Math.max(...off) };
  };
  const miss = (wb: Mm) => fitAt(wb)?.residual ?? Infinity;
  let best = wheelbase;
  if (best === null) {
    const [least, most, step] = WHEELBASES;
    best = least;
    for (let wb = least; wb <= most; wb += step) if (miss(wb) < miss(best)) best = wb;
    const golden = (Math.sqrt(5) - 1) / 2;
    let [low, high] = [best - step, best + step];
    while (high - low > 1e-7) {
      const [p, q] = [high - golden * (high - low), low + golden * (high - low)];
      if (miss(p) < miss(q)) high = q;
      else low = p;
    }
    best = (low + high) / 2;
  }
  const found = fitAt(best);
  if (!found || !Number.isFinite(found.residual))
    return badInput('The clicked holes lie in one line or on one spot.', mend);
  const { map, residual, worst } = found;
  return done({
    wheelbase: best,
    residual,
    worst,
    toPlan: (x, y) => {
      const [u, v] = map(x, y);
      return { x: u, y: v };
    },
  });
}
