/** Curves of the demonstration drawings. Everything is mm on the art, +x right, +y down. */
export type Pt = readonly [number, number];
export type Ring = Pt[];

/** A small seeded generator (linear congruential, constants of Numerical Recipes), so that a drawing never changes. */
export function dice(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
}

/** A centripetal Catmull–Rom curve through `points`, sampled about every `step` mm. A point given twice is a corner. */
export function through(points: readonly Pt[], closed = false, step = 0.7): Pt[] {
  const runs: Pt[][] = [[]];
  const list = closed ? [...points, points[0] as Pt] : [...points];
  let corner = false;
  list.forEach((p, i) => {
    const run = runs[runs.length - 1] as Pt[];
    run.push(p);
    const next = list[i + 1];
    if (next && next[0] === p[0] && next[1] === p[1]) {
      corner = true;
      runs.push([]);
    }
  });
  const smoothLoop = closed && !corner;
  const out: Pt[] = [];
  for (const run of runs) {
    if (run.length < 2) continue;
    const n = run.length;
    const at = (i: number): Pt => {
      if (i >= 0 && i < n) return run[i] as Pt;
      if (smoothLoop) return i < 0 ? (run[n - 2] as Pt) : (run[1] as Pt);
      const [a, b] = i < 0 ? [run[0] as Pt, run[1] as Pt] : [run[n - 1] as Pt, run[n - 2] as Pt];
      return [2 * a[0] - b[0], 2 * a[1] - b[1]];
    };
    for (let i = 0; i < n - 1; i++) {
      const [p0, p1, p2, p3] = [at(i - 1), at(i), at(i + 1), at(i + 2)];
      const knot = (a: Pt, b: Pt) => Math.max(1e-6, Math.sqrt(Math.hypot(b[0] - a[0], b[1] - a[1])));
      const [d1, d2, d3] = [knot(p0, p1), knot(p1, p2), knot(p2, p3)];
      const pieces = Math.max(1, Math.ceil((d2 * d2) / step));
      for (let k = 0; k < pieces; k++) {
        const t = k / pieces;
        const point = [0, 1].map((axis) => {
          const [a, b, c, d] = [p0[axis], p1[axis], p2[axis], p3[axis]] as [number, number, number, number];
          const m1 = d2 * ((b - a) / d1 - (c - a) / (d1 + d2) + (c - b) / d2);
          const m2 = d2 * ((c - b) / d2 - (d - b) / (d2 + d3) + (d - c) / d3);
          return (2 * (b - c) + m1 + m2) * t ** 3 + (-3 * (b - c) - 2 * m1 - m2) * t ** 2 + m1 * t + b;
        });
        out.push([point[0] as number, point[1] as number]);
      }
    }
  }
  if (!closed) out.push(list[list.length - 1] as Pt);
  return out;
}

/** Points of an ellipse, or of a part of it between two angles in degrees (clockwise as seen, 0 to the right). */
export function arc(cx: number, cy: number, rx: number, ry = rx, from = 0, to = 360, step = 0.7): Pt[] {
  const length = (Math.max(rx, ry) * Math.abs(to - from) * Math.PI) / 180;
  const n = Math.max(8, Math.ceil(length / step));
  const whole = Math.abs(to - from) >= 360;
  return Array.from({ length: whole ? n : n + 1 }, (_, i) => {
    const a = ((from + ((to - from) * i) / n) * Math.PI) / 180;
    return [cx + rx * Math.cos(a), cy + ry * Math.sin(a)] as const;
  });
}

/** Lengths along a line from its start. */
function lengths(line: readonly Pt[]): number[] {
  const out = [0];
  for (let i = 1; i < line.length; i++) {
    const [a, b] = [line[i - 1] as Pt, line[i] as Pt];
    out.push((out[i - 1] as number) + Math.hypot(b[0] - a[0], b[1] - a[1]));
  }
  return out;
}

/** A line's width at share `t` of its length, heading along (dx, dy). */
export type Width = (t: number, dx: number, dy: number) => number;

/** Thin at both ends, `w` in the middle. */
export const taper =
  (w: number, ends = 0.5): Width =>
  (t) =>
    ends + (w - ends) * Math.sin(Math.PI * Math.min(1, Math.max(0, t))) ** 0.8;
/** `w` at the start, running out to `end`. */
export const flick =
  (w: number, end = 0.5): Width =>
  (t) =>
    end + (w - end) * (1 - t) ** 0.8;
export const even =
  (w: number): Width =>
  () =>
    w;

/** The outline of a brush stroke with round ends along `line`. */
export function stroke(line: readonly Pt[], width: Width): Ring {
  const along = lengths(line);
  const total = along[along.length - 1] || 1;
  const left: Pt[] = [];
  const right: Pt[] = [];
  const n = line.length;
  let first: [number, number, number] = [1, 0, 0.5];
  let last = first;
  for (let i = 0; i < n; i++) {
    const [a, b] = [line[Math.max(0, i - 1)] as Pt, line[Math.min(n - 1, i + 1)] as Pt];
    const size = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    const [dx, dy] = [(b[0] - a[0]) / size, (b[1] - a[1]) / size];
    const half = width((along[i] as number) / total, dx, dy) / 2;
    const p = line[i] as Pt;
    left.push([p[0] - dy * half, p[1] + dx * half]);
    right.push([p[0] + dy * half, p[1] - dx * half]);
    if (i === 0) first = [dx, dy, half];
    last = [dx, dy, half];
  }
  const cap = (p: Pt, [dx, dy, half]: [number, number, number], sign: number): Pt[] =>
    [-60, -30, 0, 30, 60].map((deg) => {
      const a = (deg * Math.PI) / 180;
      const [c, s] = [Math.cos(a) * sign, Math.sin(a) * sign];
      return [p[0] + half * (dx * c + dy * s), p[1] + half * (dy * c - dx * s)] as const;
    });
  return [...left, ...cap(line[n - 1] as Pt, last, 1), ...right.reverse(), ...cap(line[0] as Pt, first, -1)];
}

/** A drawn outline: heavier on the side away from the light, which comes from the upper left. */
export function contour(ring: readonly Pt[], w: number, min = 0.55): Ring {
  const area = ring.reduce((sum, p, i) => {
    const q = ring[(i + 1) % ring.length] as Pt;
    return sum + p[0] * q[1] - q[0] * p[1];
  }, 0);
  const side = area > 0 ? 1 : -1;
  const line = [...ring, ring[0] as Pt];
  return stroke(line, (_, dx, dy) => {
    const shade = (side * (dy * 0.55 - dx * 0.83) + 1) / 2;
    return Math.max(min, w * (0.55 + 0.75 * shade));
  });
}

export const move = (points: readonly Pt[], x: number, y: number): Pt[] =>
  points.map((p) => [p[0] + x, p[1] + y] as const);
/** Scaled about the origin, then turned by degrees clockwise as seen, then moved. */
export function placed(points: readonly Pt[], x: number, y: number, sx = 1, sy = sx, deg = 0): Pt[] {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  return points.map((p) => [x + sx * p[0] * c - sy * p[1] * s, y + sx * p[0] * s + sy * p[1] * c] as const);
}
export const mix = (a: number, b: number, t: number): number => a + (b - a) * t;
/** The part of a line between two shares of its length. */
export function part(line: readonly Pt[], from: number, to: number): Pt[] {
  const along = lengths(line);
  const total = along[along.length - 1] as number;
  const at = (share: number): Pt => {
    const want = share * total;
    let i = 1;
    while (i < line.length - 1 && (along[i] as number) < want) i++;
    const [a, b] = [line[i - 1] as Pt, line[i] as Pt];
    const t = (want - (along[i - 1] as number)) / ((along[i] as number) - (along[i - 1] as number) || 1);
    return [mix(a[0], b[0], t), mix(a[1], b[1], t)];
  };
  const inner = line.filter((_, i) => {
    const share = (along[i] as number) / total;
    return share > from + 1e-6 && share < to - 1e-6;
  });
  return [at(from), ...inner, at(to)];
}
