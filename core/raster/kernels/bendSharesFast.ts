import { type Kernels, Scratch } from './load.ts';

/** Bytes of shares a band aims at. */
const BAND = 1 << 17;

/** Bends points' shares, `planeCount` bytes each, by the 256 bytes of `table`: see `bend` in core/separate/placeEdges.ts. */
export function bendSharesFast(
  kernels: Kernels,
  shares: Uint8Array,
  planeCount: number,
  table: Uint8Array,
): void {
  const most = Math.floor(BAND / planeCount) * planeCount;
  const scratch = new Scratch();
  const tableAt = scratch.take(table.length);
  const sharesAt = scratch.take(Math.min(most, shares.length));
  scratch.reserve(kernels);
  const bytes = new Uint8Array(kernels.memory.buffer);
  bytes.set(table, tableAt);
  for (let from = 0; from < shares.length; from += most) {
    const end = Math.min(shares.length, from + most);
    bytes.set(shares.subarray(from, end), sharesAt);
    kernels.bendShares(sharesAt, (end - from) / planeCount, planeCount, tableAt);
    shares.set(bytes.subarray(sharesAt, sharesAt + end - from), from);
  }
}
