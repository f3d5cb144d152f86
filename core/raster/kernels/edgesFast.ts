import { CLEAR, facingOf, keysFor } from './edgesPlain.ts';
import { type Kernels, Scratch } from './load.ts';

/** The facings of keys met so far, which are the same for all bands: of the squares and ways asked for last. */
let known = { most: 0, ways: 0, facings: new Uint8Array() };

/** The compiled twin of `feelEdgesPlain`: it asks for the way of a key only where that is met first. */
export function feelEdgesFast(
  kernels: Kernels,
  ink: Uint8Array,
  rows: number,
  columns: number,
  reach: number,
  ways: number,
): Uint8Array {
  const count = rows * columns;
  const most = (2 * reach + 1) ** 2;
  const scratch = new Scratch();
  const inkAt = scratch.take(count);
  const mixedAt = scratch.take(count);
  const countsAt = scratch.take(4 * count + 16);
  const sumsAt = scratch.take(4 * count + 16);
  const someAt = scratch.take(rows);
  const lineAt = scratch.take(4 * (columns + 2 * reach + 1));
  const facingsAt = scratch.take(keysFor(most));
  const outAt = scratch.take(count);
  scratch.reserve(kernels);
  const bytes = new Uint8Array(kernels.memory.buffer);
  const sums = new Int32Array(kernels.memory.buffer);
  bytes.set(ink, inkAt);
  if (known.most !== most || known.ways !== ways)
    known = { most, ways, facings: new Uint8Array(keysFor(most)) };
  bytes.set(known.facings, facingsAt);
  kernels.edgeCells(inkAt, rows, columns, reach, mixedAt);
  kernels.edgeSums(inkAt, mixedAt, rows, columns, reach, countsAt, lineAt, someAt, sumsAt);
  let at = 0;
  for (;;) {
    at = kernels.edgeCodes(sumsAt, inkAt, mixedAt, at, count, most, CLEAR, facingsAt, outAt);
    if (at >= count) break;
    const sum = sums[(sumsAt >> 2) + at]!;
    const one = (sum & 255) - ((sum >>> 8) & 255);
    const two = 2 * (((sum >>> 16) & 255) - (sum >>> 24));
    const key = (one + most) * (4 * most + 1) + two + 2 * most;
    const facing = facingOf(key, most, ways);
    bytes[facingsAt + key] = facing;
    known.facings[key] = facing;
  }
  return bytes.slice(outAt, outAt + count);
}
