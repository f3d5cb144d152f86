import { blankMask, type Mask, setBit } from '../../../core/raster/index.ts';

/** A seeded stream of numbers in [0, 1): xorshift32 (G. Marsaglia, 2003). */
export function numbers(seed: number): () => number {
  let x = (Math.imul(seed, 0x9e3779b1) ^ 0x5bd1e995) | 1;
  return () => {
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    return (x >>> 0) / 4294967296;
  };
}

/** Which ink each point has: -1 is bare. Rows from the top. */
export interface LabelMap {
  readonly width: number;
  readonly height: number;
  readonly inks: number;
  readonly labels: Int8Array;
}

/**
 * Cells around random seeds (some of them bare), with random bars drawn over: regions of every shape with thin lines
 * between them, corners of three inks, islands.
 */
export function randomLabels(width: number, height: number, inks: number, seed: number): LabelMap {
  const next = numbers(seed);
  const cells = Array.from({ length: 3 + Math.floor(next() * 9) }, () => ({
    x: next() * width,
    y: next() * height,
    ink: Math.floor(next() * (inks + 1)) - 1,
  }));
  const labels = new Int8Array(width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      let best = Infinity;
      for (const cell of cells) {
        const d = (cell.x - x) ** 2 + (cell.y - y) ** 2;
        if (d < best) {
          best = d;
          labels[y * width + x] = cell.ink;
        }
      }
    }
  for (let bars = Math.floor(next() * 5); bars > 0; bars--) {
    const ink = Math.floor(next() * (inks + 1)) - 1;
    const [ax, ay, bx, by] = [next() * width, next() * height, next() * width, next() * height];
    const half = 0.5 + next() * 2;
    const length = Math.hypot(bx - ax, by - ay) || 1;
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++) {
        const along = ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length;
        const off = Math.abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) / length;
        if (along >= 0 && along <= length && off <= half) labels[y * width + x] = ink;
      }
  }
  for (let dots = Math.floor(next() * 12); dots > 0; dots--)
    labels[Math.floor(next() * labels.length)] = Math.floor(next() * (inks + 1)) - 1;
  return { width, height, inks, labels };
}

/** One mask an ink. */
export const separationsOf = ({ width, height, inks, labels }: LabelMap): Mask[] =>
  Array.from({ length: inks }, (_, ink) => {
    const mask = blankMask(width, height);
    for (let i = 0; i < labels.length; i++)
      if (labels[i] === ink) setBit(mask, i % width, Math.floor(i / width));
    return mask;
  });
