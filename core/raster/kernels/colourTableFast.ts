import type { ColourTable } from '../colourTable.ts';
import type { Picture } from '../picture.ts';
import { type Kernels, Scratch } from './load.ts';

/** Points a band aims at: they and their shares stay in the second cache. */
const BAND = 1 << 13;
/** Shares that the kernel takes at once. */
const LANES = 8;

/** The compiled twin of `colourTablePlain`. */
export function colourTableFast(
  kernels: Kernels,
  { data }: Picture,
  { axes, planes, shares }: ColourTable,
  out: readonly Uint8Array[],
): void {
  const points = out[0]!.length;
  const band = Math.min(points, BAND);
  const groups = Math.ceil(planes / LANES);
  const pitch = groups * LANES;
  const nodes = shares.length / planes;
  const scratch = new Scratch();
  const axesAt = scratch.take(3 * 256 * 8);
  const endsAt = scratch.take(4 * pitch);
  const sharesAt = scratch.take(2 * pitch * nodes);
  const pointsAt = scratch.take(4 * band);
  const outAt = scratch.take(planes * band);
  scratch.reserve(kernels);
  const bytes = new Uint8Array(kernels.memory.buffer);
  const words = new Int32Array(kernels.memory.buffer);
  const table = new Uint16Array(kernels.memory.buffer, sharesAt, pitch * nodes);
  const stepB = 2 * pitch;
  const stepG = stepB * axes[2].levels.length;
  const steps = [stepG * axes[1].levels.length, stepG, stepB] as const;
  for (let c = 0; c < 3; c++)
    for (let v = 0; v < 256; v++) {
      const at = (axesAt >> 2) + 512 * c + 2 * v;
      words[at] = axes[c as 0 | 1 | 2].below[v]! * steps[c as 0 | 1 | 2];
      words[at + 1] = axes[c as 0 | 1 | 2].beyond[v]!;
    }
  for (let p = 0; p < pitch; p++) words[(endsAt >> 2) + p] = p < planes - 1 ? 0 : 255;
  table.fill(0);
  for (let node = 0, from = 0, to = 0; node < nodes; node++, to += pitch)
    for (let p = 0; p < planes; p++) table[to + p] = shares[from++]!;
  for (let first = 0; first < points; first += band) {
    const n = Math.min(band, points - first);
    bytes.set(data.subarray(4 * first, 4 * (first + n)), pointsAt);
    kernels.tableShares(pointsAt, n, axesAt, ...steps, sharesAt, planes, groups, endsAt, outAt, band);
    for (let p = 0; p < planes; p++)
      out[p]!.set(bytes.subarray(outAt + p * band, outAt + p * band + n), first);
  }
}
