import type { Component } from '../components.ts';
import { type Mask, signedWords } from '../mask.ts';
import { type Kernels, Scratch } from './load.ts';

/** Bytes of rows that a band aims at. */
const BAND = 1 << 17;
/** Labels beyond those that a row's own runs can take. */
const SPARE = 4096;

/** The compiled twin of `smallPiecesPlain`; points of a piece are counted in 31 bits. */
export function smallPiecesFast(kernels: Kernels, mask: Mask, below: number): Component[] {
  const { width, height, stride } = mask;
  const words = signedWords(mask);
  const pitch = stride * 4;
  const bandRows = Math.max(1, Math.min(height, Math.floor(BAND / pitch)));
  const half = (width >>> 1) + 2;
  const room = 2 * half + SPARE;
  const scratch = new Scratch();
  const stateAt = scratch.take(12);
  const [runsAt, aboveAt] = [scratch.take(8 * half), scratch.take(8 * half)];
  const [mineAt, overAt] = [scratch.take(4 * half), scratch.take(4 * half)];
  const labelsAt = scratch.take(32 * room);
  const outAt = scratch.take(24 * room);
  const inputAt = scratch.take(bandRows * pitch);
  scratch.reserve(kernels);
  const memory = new Int32Array(kernels.memory.buffer);
  const state = memory.subarray(stateAt >> 2, (stateAt >> 2) + 3).fill(0);
  const found: Component[] = [];
  const limit = Math.min(Math.ceil(below), 2 ** 31 - 1);
  const gather = () => {
    for (let i = 0, at = outAt >> 2; i < state[2]!; i++, at += 6) {
      const [left, top] = [memory[at + 1]!, memory[at + 3]!];
      const box = { x: left, y: top, width: memory[at + 2]! - left + 1, height: memory[at + 4]! - top + 1 };
      found.push({ area: memory[at]!, box, x: memory[at + 5]!, y: top });
    }
    state[2] = 0;
  };
  for (let y = 0; y < height; y += bandRows) {
    const rows = Math.min(bandRows, height - y);
    memory.set(words.subarray(y * stride, (y + rows) * stride), inputAt >> 2);
    for (let done = 0; done < rows; gather()) {
      const from = inputAt + done * pitch;
      done += kernels.pieceRows(
        from,
        pitch,
        width,
        rows - done,
        y + done,
        runsAt,
        aboveAt,
        mineAt,
        overAt,
        labelsAt,
        room,
        limit,
        outAt,
        stateAt,
      );
    }
  }
  kernels.lastPieces(labelsAt, limit, outAt, stateAt);
  gather();
  // They were found in the order in which they ended.
  return found.sort((a, b) => (a.y as number) - (b.y as number) || (a.x as number) - (b.x as number));
}
