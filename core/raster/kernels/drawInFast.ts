import type { Px } from '../../units/index.ts';
import { discHalfWidths } from '../disc.ts';
import { type Mask, signedWords, tailBits } from '../mask.ts';
import type { DrawIn } from './drawInPlain.ts';
import { Disc } from './growFast.ts';
import { type Kernels, Scratch } from './load.ts';

/** Points; beyond them steps do not fit a byte. */
export const FARTHEST_DISC = 254;
/** Bytes of rows that are drawn in together, but for those about them. */
const BAND = 1 << 18;
/** Rows of a piece that thin ink is looked at in; it is 128 points wide. */
const TALL = 64;

/** The squared length of every step of a disc of `reach`, a row a step down, padded to whole vectors. */
function stepSquares(reach: Px, across: number): Uint16Array {
  const squares = new Uint16Array((2 * reach + 1) * across).fill(65535);
  for (let dy = -reach; dy <= reach; dy++)
    for (let dx = -reach; dx <= reach; dx++) squares[(dy + reach) * across + dx + reach] = dx * dx + dy * dy;
  return squares;
}

/** The compiled twin of `drawInPlain`: the plain choke, then what thin ink keeps beside it, all in the kernels' memory. */
export function drawInFast(
  kernels: Kernels,
  masks: readonly Mask[],
  from: Px,
  to: Px,
  { chokePx, largest, least, look }: DrawIn,
  out: Mask,
): void {
  const { stride, width, height } = masks[0]!;
  const reach = Math.floor(Math.sqrt(largest));
  const about = 2 * reach + 1;
  const pitch = stride * 4;
  const most = Math.max(1, Math.min(to - from, Math.floor(BAND / pitch)));
  const inMost = most + 2 * about;
  const across = (2 * reach + 8) & ~7;
  const columns = 128 + across + 8;
  const wide = columns + 2 * reach + 32;
  const scratch = new Scratch();
  const disc = (radius: Px, count: number) => {
    const half = discHalfWidths(radius);
    const of = { stride, words: (width + 31) >>> 5, tail: tailBits(width), height: inMost, half };
    return new Disc(scratch, of, count);
  };
  const choke = disc(chokePx, inMost);
  const whole = disc(Math.sqrt(largest), inMost);
  const near = look && { round: disc(look.radius, inMost), deep: disc(look.bound, inMost) };
  const bytes = most * pitch;
  const inputAt = scratch.take(inMost * pitch);
  const keptAt = scratch.take(bytes);
  const askedAt = scratch.take(bytes);
  const wideAt = scratch.take(bytes);
  const deepAt = scratch.take(bytes);
  // What lies between shrinking and growing, or the rows of another mask.
  const coreAt = scratch.take(inMost * pitch);
  const leastAt = scratch.take(least.byteLength);
  const discsAt = scratch.take((2 * reach + 1) * across * 2);
  const walkAt = scratch.take(wide);
  const stepsAt = scratch.take((TALL + 2 * reach) * wide);
  const lineAt = scratch.take(2 * wide);
  const mapAt = scratch.take((TALL + 2 * reach) * columns * 2);
  scratch.reserve(kernels);
  const memory = new Int32Array(kernels.memory.buffer);
  const shorts = new Uint16Array(kernels.memory.buffer);
  for (const each of [choke, whole, ...(near ? [near.round, near.deep] : [])]) each.prepare(memory);
  shorts.set(least, leastAt >> 1);
  shorts.set(stepSquares(reach, across), discsAt >> 1);
  for (let y = from; y < to; y += most) {
    const rows = Math.min(most, to - y);
    const top = Math.max(0, y - about);
    const bottom = Math.min(height, y + rows + about);
    const [first, inRows] = [y - top, bottom - top];
    const band = (mask: Mask, at: number) =>
      memory.set(signedWords(mask).subarray(top * stride, bottom * stride), at >> 2);
    band(masks[0]!, inputAt);
    for (const mask of masks.slice(1)) {
      band(mask, coreAt);
      kernels.addRows(inputAt, coreAt, inRows * pitch);
    }
    const size = rows * pitch;
    const open = (round: Disc, to: number) => {
      const coreTop = Math.max(0, first - round.reach);
      const coreBottom = Math.min(inRows, first + rows + round.reach);
      round.run(kernels, inputAt, coreAt, coreTop, coreBottom - coreTop, inRows, true);
      round.run(kernels, coreAt, to, first - coreTop, rows, coreBottom - coreTop, false);
    };
    choke.run(kernels, inputAt, keptAt, first, rows, inRows, true);
    open(whole, askedAt);
    kernels.withoutRows(inputAt + first * pitch, askedAt, size);
    kernels.lessRows(askedAt, keptAt, size);
    if (near) {
      open(near.round, wideAt);
      near.deep.run(kernels, inputAt, deepAt, first, rows, inRows, true);
      kernels.lessRows(wideAt, deepAt, size);
      kernels.lessRows(askedAt, wideAt, size);
    }
    kernels.stayRows(
      inputAt,
      pitch,
      inRows,
      first,
      rows,
      askedAt,
      keptAt,
      TALL,
      reach,
      largest + 1,
      leastAt,
      discsAt,
      across,
      walkAt,
      stepsAt,
      lineAt,
      mapAt,
    );
    signedWords(out).set(memory.subarray(keptAt >> 2, (keptAt + size) >> 2), y * stride);
  }
}
