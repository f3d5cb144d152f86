import { type Mask, signedWords } from '../mask.ts';
import { type CellGrid, cellSpans } from './cellsPlain.ts';
import { copyWindow } from './copyWindow.ts';
import { type Kernels, Scratch } from './load.ts';

/** The compiled twin of `inkCellsPlain`: only the words under the grid are copied. */
export function inkCellsFast(kernels: Kernels, mask: Mask, grid: CellGrid): Uint8Array {
  const { begin, firsts, ends, lasts, starts, stops } = cellSpans(mask, grid);
  const { wide, high, upright } = grid;
  const count = firsts.length;
  const top = starts.reduce((least, y) => Math.min(least, y), mask.height);
  const bottom = stops.reduce((most, y) => Math.max(most, y), top);
  if (count === 0 || top >= bottom) return new Uint8Array(wide * high);
  const first = begin >> 5;
  const words = ((begin + count - 1) >> 5) + 1 - first;
  const scratch = new Scratch();
  const wordsAt = scratch.take((bottom - top) * words * 4);
  const [firstsAt, endsAt, lastsAt] = [1, 2, 3].map(() => scratch.take(4 * count)) as [
    number,
    number,
    number,
  ];
  const [startsAt, stopsAt] = [scratch.take(4 * high), scratch.take(4 * high)];
  const joinedAt = scratch.take(4 * words);
  const outAt = scratch.take(wide * high);
  scratch.reserve(kernels);
  const memory = new Int32Array(kernels.memory.buffer);
  copyWindow(signedWords(mask), mask.stride, first, top, words, bottom - top, memory, wordsAt >> 2, words);
  memory.set(firsts, firstsAt >> 2);
  memory.set(ends, endsAt >> 2);
  memory.set(lasts, lastsAt >> 2);
  memory.set(starts, startsAt >> 2);
  memory.set(stops, stopsAt >> 2);
  const bytes = new Uint8Array(kernels.memory.buffer);
  bytes.fill(0, outAt, outAt + wide * high);
  const pitch = 4 * words;
  kernels.inkCells(
    wordsAt - top * pitch,
    pitch,
    startsAt,
    stopsAt,
    high,
    wide,
    begin & 31,
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
