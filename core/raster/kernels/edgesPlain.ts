/** How much of an edge's pull must be one way for it to face that way, squared. */
export const CLEAR = 0.4 * 0.4;

/** Codes of cells: bits that tell of an edge close by and of ink, and above them which way the edge faces, from 1. */
export const MIXED = 1;
export const INKED = 2;
export const FACING = 4;

/** The readable definition of `feelEdges`. */
export function feelEdgesPlain(
  ink: Uint8Array,
  rows: number,
  columns: number,
  reach: number,
  ways: number,
): Uint8Array {
  const mixed = edgeCells(ink, rows, columns, reach);
  const facing = edgeFacings(ink, mixed, rows, columns, reach, ways);
  return ink.map((own, at) => FACING * facing[at]! + INKED * own + MIXED * mixed[at]!);
}

/** 1 for values within `reach` of a change from blank to ink or back, along either axis. */
function edgeCells(ink: Uint8Array, rows: number, columns: number, reach: number): Uint8Array {
  const out = new Uint8Array(rows * columns);
  for (let p = 0; p < rows; p++) {
    const row = p * columns;
    for (let q = 0; q < columns; q++) {
      const at = row + q;
      if (q + 1 < columns && ink[at] !== ink[at + 1])
        out.fill(1, row + Math.max(0, q + 1 - reach), row + Math.min(columns, q + 1 + reach));
      if (p + 1 < rows && ink[at] !== ink[at + columns]) {
        const last = Math.min(rows - 1, p + reach);
        for (let pp = Math.max(0, p + 1 - reach); pp <= last; pp++) out[pp * columns + q] = 1;
      }
    }
  }
  return out;
}

/**
 * Which way ink's edges face about every value that is `mixed`: the main direction of the ink's gradients within `reach`
 * values (the structure tensor of Förstner and Gülch, 1987, summed over a square). Angles from p towards q.
 */
function edgeFacings(
  ink: Uint8Array,
  mixed: Uint8Array,
  rows: number,
  columns: number,
  reach: number,
  ways: number,
): Uint8Array {
  const out = new Uint8Array(rows * columns);
  // Four counts a word, a byte each: gradients along p, along q, and their products above and below 0. A square of 9 × 9 values
  // holds no more than 81 of each, so that no byte runs over into the next.
  const counts = new Int32Array(rows * columns);
  for (let p = 1; p + 1 < rows; p++) {
    for (let q = 1; q + 1 < columns; q++) {
      const at = p * columns + q;
      if (mixed[at] === 0) continue;
      const gp = ink[at + columns]! - ink[at - columns]!;
      const gq = ink[at + 1]! - ink[at - 1]!;
      counts[at] = (gp & 1) | ((gq & 1) << 8) | (gp * gq > 0 ? 1 << 16 : gp * gq < 0 ? 1 << 24 : 0);
    }
  }
  const sums = sumDown(sumRight(counts, rows, columns, reach), rows, columns, reach);
  const most = (2 * reach + 1) ** 2;
  // The sums take few values, and each comes again and again.
  const facings = new Uint8Array(keysFor(most));
  for (let at = 0; at < out.length; at++) {
    if (mixed[at] === 0) continue;
    const sum = sums[at]!;
    const [pp, qq] = [sum & 255, (sum >>> 8) & 255];
    const all = pp + qq;
    const [two, one] = [2 * (((sum >>> 16) & 255) - (sum >>> 24)), pp - qq];
    if (all === 0 || two * two + one * one < CLEAR * all * all) continue;
    const key = (one + most) * (4 * most + 1) + two + 2 * most;
    out[at] = facings[key] ||= facingOf(key, most, ways);
  }
  return out;
}

/** Keys of the sums of a square of `most` values: what its gradients are along one axis more than along the other, and twice their products. */
export const keysFor = (most: number): number => (2 * most + 1) * (4 * most + 1);

/** Which of `ways` ways over half a turn, from 1, an edge of that key faces: half the angle whose tangent the two sums make. */
export function facingOf(key: number, most: number, ways: number): number {
  const one = Math.floor(key / (4 * most + 1)) - most;
  const two = (key % (4 * most + 1)) - 2 * most;
  const angle = Math.atan2(two, one) / 2;
  return 1 + ((Math.round((angle * ways) / Math.PI) + ways) % ways);
}

/** Every value's sum with its neighbours up to `reach` along its row, in place. */
function sumRight(values: Int32Array, rows: number, columns: number, reach: number): Int32Array {
  const line = new Int32Array(columns + 2 * reach + 1);
  for (let p = 0; p < rows; p++) {
    const row = p * columns;
    line.set(values.subarray(row, row + columns), reach + 1);
    let sum = 0;
    for (let i = reach + 1; i < 2 * reach + 1; i++) sum += line[i]!;
    for (let q = 0; q < columns; q++) {
      sum = (sum + line[q + 2 * reach + 1]! - line[q]!) | 0;
      values[row + q] = sum;
    }
  }
  return values;
}

/** The same along columns, into new values. */
function sumDown(values: Int32Array, rows: number, columns: number, reach: number): Int32Array {
  const out = new Int32Array(values.length);
  const sum = new Int32Array(columns);
  for (let p = -reach; p < rows; p++) {
    const [come, gone] = [(p + reach) * columns, (p - reach - 1) * columns];
    if (p + reach < rows) for (let q = 0; q < columns; q++) sum[q] = (sum[q]! + values[come + q]!) | 0;
    if (gone >= 0) for (let q = 0; q < columns; q++) sum[q] = (sum[q]! - values[gone + q]!) | 0;
    if (p >= 0) out.set(sum, p * columns);
  }
  return out;
}
