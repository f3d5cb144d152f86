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

export type PlaneMap = (x: number, y: number) => Pair;

/**
 * The perspective map from → to (four pairs or more): least squares with the matrix' last element 1, on normalised
 * points; null where points are in line.
 */
export function homography(from: readonly Pair[], to: readonly Pair[]): PlaneMap | null {
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

/**
 * The least-squares turn, scale and shift from a picture whose y runs down to a plan whose y runs up; null where the
 * points lie on one spot. With z the picture's point, its y negated, and w the plan's, both complex and centred:
 * a = Σ z̄w / Σ |z|².
 */
export function similarity(from: readonly Pair[], to: readonly Pair[]): PlaneMap | null {
  const a = normal(from);
  const b = normal(to);
  let [re, im, square] = [0, 0, 0];
  from.forEach((p, i) => {
    const [x, y] = [p[0] - a.cx, a.cy - p[1]];
    const [u, v] = [to[i]![0] - b.cx, to[i]![1] - b.cy];
    re += x * u + y * v;
    im += x * v - y * u;
    square += x * x + y * y;
  });
  if (!(square > 1e-9)) return null;
  [re, im] = [re / square, im / square];
  return (px, py) => {
    const [x, y] = [px - a.cx, a.cy - py];
    return [re * x - im * y + b.cx, im * x + re * y + b.cy];
  };
}
