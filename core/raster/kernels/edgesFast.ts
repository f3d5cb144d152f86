import { CLEAR, type FeltEdges, facingOf, keysFor } from './edgesPlain.ts';
import { type Kernels, Scratch } from './load.ts';

/** The compiled twin of `feelEdgesPlain`: it asks for the way of a key only where that is met first. */
export function feelEdgesFast(
  kernels: Kernels,
  ink: Uint8Array,
  rows: number,
  columns: number,
  reach: number,
  ways: number,
): FeltEdges {
  const count = rows * columns;
  const most = (2 * reach + 1) ** 2;
  const scratch = new Scratch();
  const inkAt = scratch.take(count);
  const mixedAt = scratch.take(count);
  const countsAt = scratch.take(4 * count);
  const sumsAt = scratch.take(4 * count);
  const lineAt = scratch.take(4 * (columns + 2 * reach + 1));
  const facingsAt = scratch.take(keysFor(most));
  const outAt = scratch.take(count);
  scratch.reserve(kernels);
  const bytes = new Uint8Array(kernels.memory.buffer);
  const sums = new Int32Array(kernels.memory.buffer);
  bytes.set(ink, inkAt);
  bytes.fill(0, facingsAt, facingsAt + keysFor(most));
  kernels.edgeCells(inkAt, rows, columns, reach, mixedAt);
  kernels.edgeSums(inkAt, mixedAt, rows, columns, reach, countsAt, lineAt, sumsAt);
  let at = 0;
  for (;;) {
    at = kernels.edgeFacings(sumsAt, mixedAt, at, count, most, CLEAR, facingsAt, outAt);
    if (at >= count) break;
    const sum = sums[(sumsAt >> 2) + at]!;
    const one = (sum & 255) - ((sum >>> 8) & 255);
    const two = 2 * (((sum >>> 16) & 255) - (sum >>> 24));
    const key = (one + most) * (4 * most + 1) + two + 2 * most;
    bytes[facingsAt + key] = facingOf(key, most, ways);
  }
  return {
    mixed: bytes.slice(mixedAt, mixedAt + count),
    facing: bytes.slice(outAt, outAt + count),
  };
}
