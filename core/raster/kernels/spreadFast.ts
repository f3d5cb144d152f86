import type { Px } from '../../units/index.ts';
import { discHalfWidths } from '../disc.ts';
import { type Mask, signedWords, tailBits } from '../mask.ts';
import { Disc } from './growFast.ts';
import { type Kernels, Scratch } from './load.ts';
import { type SpreadWay, spreadReach } from './spreadPlain.ts';

/** Bytes of rows worked on together, but for those about them, and how many rows at least. */
const BAND = 1 << 19;
const LEAST_ROWS = 64;
/** Bytes of a page of memory on most machines. */
const STRETCH = 4096;

/** The compiled twin of `spreadPlain`: band by band in the kernels' memory. Bare stretches of `out`, which is blank, are left alone. */
export function spreadFast(
  kernels: Kernels,
  seed: Mask,
  ways: readonly SpreadWay[],
  keepOut: Mask | null,
  from: Px,
  to: Px,
  out: Mask,
): void {
  const { width, height, stride } = seed;
  const words = (width + 31) >>> 5;
  const pitch = stride * 4;
  const reach = spreadReach(ways);
  const most = Math.min(to - from, Math.max(LEAST_ROWS, Math.floor(BAND / pitch)));
  const inMost = Math.min(height, most + 2 * reach);
  const bytes = inMost * pitch;
  const scratch = new Scratch();
  const seedAt = scratch.take(bytes);
  const allAt = scratch.take(bytes);
  const grownAt = scratch.take(bytes);
  const roomAt = scratch.take(bytes);
  const reachedAt = scratch.take(bytes);
  const placesAt = scratch.take(bytes);
  const freshAt = scratch.take(bytes);
  const keepOutAt = keepOut ? scratch.take(bytes) : 0;
  const runsAt = scratch.take(8 * (Math.ceil(bytes / STRETCH) + 1));
  const discs = new Map(
    ways.map(({ radius }) => {
      const of = { stride, words, tail: tailBits(width), height: inMost, half: discHalfWidths(radius) };
      return [radius, new Disc(scratch, of, inMost)];
    }),
  );
  scratch.reserve(kernels);
  const memory = new Int32Array(kernels.memory.buffer);
  for (const disc of discs.values()) disc.prepare(memory);
  for (let y = from; y < to; y += most) {
    const rows = Math.min(most, to - y);
    const top = Math.max(0, y - reach);
    const bottom = Math.min(height, y + rows + reach);
    const inRows = bottom - top;
    const size = inRows * pitch;
    const band = (mask: Mask, at: number) =>
      memory.set(signedWords(mask).subarray(top * stride, bottom * stride), at >> 2);
    band(seed, seedAt);
    if (kernels.inked(seedAt, size) === 0) continue;
    if (keepOut) band(keepOut, keepOutAt);
    memory.copyWithin(allAt >> 2, seedAt >> 2, (seedAt + size) >> 2);
    let grownBy = -1;
    for (const { into, radius, steps } of ways) {
      band(into, roomAt);
      if (kernels.inked(roomAt, size) === 0) continue;
      // Ways of one width share the growth.
      if (grownBy !== radius) discs.get(radius)?.run(kernels, seedAt, grownAt, 0, inRows, inRows, false);
      grownBy = radius;
      memory.fill(0, reachedAt >> 2, (reachedAt + size) >> 2);
      const n = kernels.beginSpread(
        seedAt,
        grownAt,
        keepOutAt,
        roomAt,
        reachedAt,
        placesAt,
        pitch,
        words,
        inRows,
        steps >= 1 ? 1 : 0,
      );
      if (n === 0) continue;
      kernels.spreadSteps(roomAt, reachedAt, placesAt, n, freshAt, pitch, words, inRows, steps);
      kernels.addRows(allAt, reachedAt, size);
    }
    const target = signedWords(out).subarray(y * stride, (y + rows) * stride);
    setInked(kernels, allAt + (y - top) * pitch, target, runsAt);
  }
}

/** Writes the words from `at` on, where there are any but bare ones, to `target`; `runs` is room for a word each 2 KB. */
function setInked(kernels: Kernels, at: number, target: Int32Array, runs: number): void {
  const count = kernels.inkedRuns(at, 4 * target.length, STRETCH, runs);
  const memory = new Int32Array(kernels.memory.buffer);
  for (let k = runs >> 2; k < (runs >> 2) + 2 * count; k += 2) {
    const [from, end] = [memory[k]!, memory[k + 1]!];
    target.set(memory.subarray((at + from) >> 2, (at + end) >> 2), from >> 2);
  }
}
