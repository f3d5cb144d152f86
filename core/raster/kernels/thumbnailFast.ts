import { type Mask, signedWords } from '../mask.ts';
import type { PxBox } from '../measure.ts';
import { type Kernels, Scratch } from './load.ts';

/** Bytes of mask a band aims at. */
const BAND = 1 << 17;

/** The compiled twin of `thumbnailPlain`, for factors of 1 to 32: whole rows of the mask are handed over, those beyond it bare. */
export function thumbnailFast(kernels: Kernels, mask: Mask, factor: number, window: PxBox, out: Mask): void {
  const bytes = mask.stride * 4;
  const right = Math.min(mask.width, window.x + window.width);
  // Squares with points of the mask in them: from the first to before the last.
  const [first, last] = [begun(-window.x, factor), Math.ceil((right - window.x) / factor)];
  const bottom = Math.min(mask.height, window.y + window.height);
  const [top, under] = [begun(-window.y, factor), Math.ceil((bottom - window.y) / factor)];
  if (first >= last || top >= under) return;
  const most = Math.max(1, Math.min(under - top, Math.floor(BAND / (bytes * factor))));
  const scratch = new Scratch();
  const lineAt = scratch.take(bytes + 32);
  const inputAt = scratch.take(most * factor * bytes);
  const outAt = scratch.take(most * out.stride * 4);
  scratch.reserve(kernels);
  const [words, small] = [signedWords(mask), signedWords(out)];
  const memory = new Int32Array(kernels.memory.buffer);
  memory.fill(0, lineAt >> 2, (lineAt + bytes + 32) >> 2);
  const begin = 128 + window.x + first * factor;
  for (let y = top; y < under; y += most) {
    const rows = Math.min(most, under - y);
    const above = window.y + y * factor;
    const [from, to] = [Math.max(0, above), Math.min(bottom, above + rows * factor)];
    const [at, end] = [inputAt >> 2, (inputAt + rows * factor * bytes) >> 2];
    memory.fill(0, at, at + (from - above) * mask.stride);
    memory.set(words.subarray(from * mask.stride, to * mask.stride), at + (from - above) * mask.stride);
    memory.fill(0, at + (to - above) * mask.stride, end);
    kernels.inkedSquares(
      inputAt,
      bytes,
      factor,
      lineAt,
      begin,
      first,
      last,
      128 + right,
      outAt,
      out.stride * 4,
      rows,
    );
    small.set(memory.subarray(outAt >> 2, (outAt >> 2) + rows * out.stride), y * out.stride);
  }
}

/** The square in which the mask begins, `before` points into the window. */
const begun = (before: number, factor: number): number => (before > 0 ? Math.floor(before / factor) : 0);
