import { type LinearRgb, seenSlopes } from '../colour/index.ts';

/** How strongly the shares are held to a sum of 1: what misses is under a thousandth, and is scaled away. */
const SUM_WEIGHT = 900;
/** Share of a squared distance that a farther colour costs: only decides between mixtures that look alike. */
const FAR_COST = 2e-4;
/** Keeps the equations solvable where colours lie on one line or plane. */
const RIDGE = 1e-7;
/** A gradient this small is none. */
const FLAT = 1e-9;

/** Light that a mixture may miss, squared, and still be the colour asked for. */
const MISSED = 4e-6;

/** Finds shares of given colours; holds its memory, so that many targets cost no allocation. */
export interface Mixer {
  /**
   * Writes to `shares` (one a colour, in their order) the shares, at least 0 and in sum 1, whose mixture in linear light
   * lies nearest to the target. Among mixtures that are equally near it takes colours near the target, so that the grain of
   * dots is least and shares change smoothly with the target. Starts from the last solution: neighbours are quick.
   */
  solve(red: number, green: number, blue: number, shares: Float64Array): void;
  /**
   * As `solve` where some mixture is the target. Where none is, the one that looks nearest (`seenSlopes`) and not the one
   * nearest in light, which would give up the darks and the hue for a little brightness.
   */
  solveSeen(red: number, green: number, blue: number, shares: Float64Array): void;
}

/**
 * Non-negative least squares by an active set (C. L. Lawson, R. J. Hanson, "Solving Least Squares Problems", 1974,
 * chapter 23), on the normal equations, with a heavy row that holds the sum and a small cost on far colours.
 */
export function mixer(colours: readonly LinearRgb[]): Mixer {
  const n = colours.length;
  if (n === 0) throw new RangeError('A mixture needs at least one colour.');
  const light = Float64Array.from(colours.flat());
  const lightGram = new Float64Array(n * n);
  fillGram(light, n, lightGram);
  const seen = new Float64Array(3 * n);
  const seenGram = new Float64Array(n * n);
  const slopes = new Float64Array(9);
  const target = new Float64Array(3);
  let gram = lightGram;
  const right = new Float64Array(n);
  const now = new Float64Array(n);
  const next = new Float64Array(n);
  const passive = new Int32Array(n);
  const matrix = new Float64Array(n * n);
  const rhs = new Float64Array(n);
  now[0] = 1;

  /** The unbounded solution over the passive colours, by Cholesky, into `next` (0 elsewhere). */
  const free = (count: number) => {
    for (let r = 0; r < count; r++) {
      const i = passive[r]!;
      for (let c = 0; c <= r; c++) {
        let sum = gram[i * n + passive[c]!]!;
        for (let k = 0; k < c; k++) sum -= matrix[r * n + k]! * matrix[c * n + k]!;
        matrix[r * n + c] = r === c ? Math.sqrt(Math.max(sum, 1e-14)) : sum / matrix[c * n + c]!;
      }
      let sum = right[i]!;
      for (let k = 0; k < r; k++) sum -= matrix[r * n + k]! * rhs[k]!;
      rhs[r] = sum / matrix[r * n + r]!;
    }
    next.fill(0);
    for (let r = count - 1; r >= 0; r--) {
      let sum = rhs[r]!;
      for (let k = r + 1; k < count; k++) sum -= matrix[k * n + r]! * next[passive[k]!]!;
      next[passive[r]!] = sum / matrix[r * n + r]!;
    }
  };
  const gather = (): number => {
    let count = 0;
    for (let i = 0; i < n; i++) if (now[i]! > 0) passive[count++] = i;
    return count;
  };
  /** Walks to the best place with the colours in use, leaving out those that would fall below 0. */
  const settle = (count: number) => {
    for (;;) {
      free(count);
      let step = 1;
      for (let r = 0; r < count; r++) {
        const i = passive[r]!;
        if (next[i]! <= 0) step = Math.min(step, now[i]! / (now[i]! - next[i]!));
      }
      if (step >= 1) {
        now.set(next);
        return;
      }
      let kept = 0;
      for (let r = 0; r < count; r++) {
        const i = passive[r]!;
        const value = now[i]! + step * (next[i]! - now[i]!);
        if (next[i]! <= 0 && value <= 1e-12) now[i] = 0;
        else {
          now[i] = value;
          passive[kept++] = i;
        }
      }
      if (kept === count) return;
      count = kept;
      if (count === 0) return;
    }
  };

  /** Goes on from the last solution to that of `gram` and of `points`, three numbers a colour. */
  const nearest = (points: Float64Array, x: number, y: number, z: number, shares: Float64Array) => {
    for (let i = 0, o = 0; i < n; i++, o += 3) {
      const [p, q, r] = [points[o]!, points[o + 1]!, points[o + 2]!];
      const far = (p - x) ** 2 + (q - y) ** 2 + (r - z) ** 2;
      right[i] = p * x + q * y + r * z + SUM_WEIGHT - FAR_COST * far;
    }
    settle(gather());
    // Each round brings in the colour that helps most; far more rounds than colours means that rounding has the say.
    for (let round = 0; round < 6 * n; round++) {
      let best = FLAT;
      let chosen = -1;
      for (let i = 0; i < n; i++) {
        if (now[i]! > 0) continue;
        let gain = right[i]!;
        for (let k = 0; k < n; k++) if (now[k]! > 0) gain -= gram[i * n + k]! * now[k]!;
        if (gain > best) {
          best = gain;
          chosen = i;
        }
      }
      if (chosen < 0) break;
      let count = 0;
      for (let i = 0; i < n; i++) if (now[i]! > 0 || i === chosen) passive[count++] = i;
      settle(count);
      if (now[chosen] === 0) break;
    }
    let sum = 0;
    for (let i = 0; i < n; i++) sum += now[i]!;
    for (let i = 0; i < n; i++) shares[i] = now[i]! / sum;
  };
  const solve: Mixer['solve'] = (red, green, blue, shares) => {
    gram = lightGram;
    nearest(light, red, green, blue, shares);
  };
  const solveSeen: Mixer['solveSeen'] = (red, green, blue, shares) => {
    solve(red, green, blue, shares);
    let [r, g, b] = [0, 0, 0];
    for (let i = 0; i < n; i++) {
      r += shares[i]! * light[3 * i]!;
      g += shares[i]! * light[3 * i + 1]!;
      b += shares[i]! * light[3 * i + 2]!;
    }
    if ((r - red) ** 2 + (g - green) ** 2 + (b - blue) ** 2 <= MISSED) return;
    // Half way to what can be reached: there differences count as they are seen between the two.
    seenSlopes((r + red) / 2, (g + green) / 2, (b + blue) / 2, slopes);
    for (let i = 0; i < n; i++)
      turned(slopes, light[3 * i]!, light[3 * i + 1]!, light[3 * i + 2]!, seen, 3 * i);
    fillGram(seen, n, seenGram);
    gram = seenGram;
    turned(slopes, red, green, blue, target, 0);
    nearest(seen, target[0]!, target[1]!, target[2]!, shares);
  };
  return { solve, solveSeen };
}

/** The normal equations of points, three numbers each, with the row that holds the sum. */
function fillGram(points: Float64Array, n: number, out: Float64Array): void {
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      const [p, q] = [3 * i, 3 * j];
      const dot = points[p]! * points[q]! + points[p + 1]! * points[q + 1]! + points[p + 2]! * points[q + 2]!;
      out[i * n + j] = dot + SUM_WEIGHT + (i === j ? RIDGE : 0);
      out[j * n + i] = out[i * n + j]!;
    }
}

/** The matrix (by rows) times (x, y, z), written to `out` from `at` on. */
function turned(m: Float64Array, x: number, y: number, z: number, out: Float64Array, at: number): void {
  for (let k = 0; k < 3; k++) out[at + k] = m[3 * k]! * x + m[3 * k + 1]! * y + m[3 * k + 2]! * z;
}
