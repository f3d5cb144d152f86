import type { LinearRgb } from '../colour/index.ts';

/** How strongly the shares are held to a sum of 1: what misses is under a thousandth, and is scaled away. */
const SUM_WEIGHT = 900;
/** Share of a squared distance that a farther colour costs: only decides between mixtures that look alike. */
const FAR_COST = 2e-4;
/** Keeps the equations solvable where colours lie on one line or plane. */
const RIDGE = 1e-7;
/** A gradient this small is none. */
const FLAT = 1e-9;

/** Finds shares of given colours; holds its memory, so that many targets cost no allocation. */
export interface Mixer {
  /**
   * Writes to `shares` (one a colour, in their order) the shares, at least 0 and in sum 1, whose mixture in linear light
   * lies nearest to the target. Among mixtures that are equally near it takes colours near the target, so that the grain of
   * dots is least and shares change smoothly with the target. Starts from the last solution: neighbours are quick.
   */
  solve(red: number, green: number, blue: number, shares: Float64Array): void;
}

/**
 * Non-negative least squares by an active set (C. L. Lawson, R. J. Hanson, "Solving Least Squares Problems", 1974,
 * chapter 23), on the normal equations, with a heavy row that holds the sum and a small cost on far colours.
 */
export function mixer(colours: readonly LinearRgb[]): Mixer {
  const n = colours.length;
  if (n === 0) throw new RangeError('A mixture needs at least one colour.');
  const gram = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      const [p, q] = [colours[i]!, colours[j]!];
      gram[i * n + j] = p[0] * q[0] + p[1] * q[1] + p[2] * q[2] + SUM_WEIGHT + (i === j ? RIDGE : 0);
    }
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

  return {
    solve(red, green, blue, shares) {
      for (let i = 0; i < n; i++) {
        const p = colours[i]!;
        const far = (p[0] - red) ** 2 + (p[1] - green) ** 2 + (p[2] - blue) ** 2;
        right[i] = p[0] * red + p[1] * green + p[2] * blue + SUM_WEIGHT - FAR_COST * far;
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
    },
  };
}
