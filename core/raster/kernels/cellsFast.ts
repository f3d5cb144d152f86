import { type Mask, signedWords } from '../mask.ts';
import { type CellGrid, cellRange, NOISE } from './cellsPlain.ts';
import { type Kernels, Scratch } from './load.ts';

/** The compiled twin of `inkCellsPlain`; of the mask, a small one, the rows under the grid are copied whole. */
export function inkCellsFast(kernels: Kernels, mask: Mask, grid: CellGrid): Uint8Array {
  const { left, above, per, wide, high, upright, x } = grid;
  const [begin, last] = cellRange(mask, grid);
  // A row more on either side than rounding can ask for.
  const top = Math.max(0, Math.floor(above) - 1 - grid.y);
  const bottom = Math.min(mask.height, Math.ceil(above + high * per) + 1 - grid.y);
  if (begin >= last || top >= bottom) return new Uint8Array(wide * high);
  const count = last - begin;
  const pitch = 4 * mask.stride;
  const scratch = new Scratch();
  const wordsAt = scratch.take((bottom - top) * pitch);
  const firstsAt = scratch.take(4 * count);
  const endsAt = scratch.take(4 * count);
  const lastsAt = scratch.take(4 * count);
  const joinedAt = scratch.take(pitch);
  const outAt = scratch.take(wide * high);
  scratch.reserve(kernels);
  const rows = signedWords(mask).subarray(top * mask.stride, bottom * mask.stride);
  new Int32Array(kernels.memory.buffer).set(rows, wordsAt >> 2);
  const bytes = new Uint8Array(kernels.memory.buffer);
  bytes.fill(0, outAt, outAt + wide * high);
  kernels.cellColumns(begin, count, left, per, NOISE, firstsAt, endsAt, lastsAt);
  kernels.inkCells(
    wordsAt,
    pitch,
    grid.y + top,
    grid.y + bottom,
    above,
    per,
    NOISE,
    high,
    wide,
    begin - x,
    count,
    firstsAt,
    endsAt,
    lastsAt,
    joinedAt,
    upright ? high : 1,
    upright ? 1 : wide,
    outAt,
  );
  return bytes.slice(outAt, outAt + wide * high);
}
