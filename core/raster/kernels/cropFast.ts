import type { Px } from '../../units/index.ts';
import { type Mask, signedWords, tailBits } from '../mask.ts';
import { copyWindow } from './copyWindow.ts';
import { type Kernels, Scratch } from './load.ts';

/** Bytes of rows that a band aims at. */
const BAND = 1 << 17;
/** Whole rows are copied where this share of them is wanted: copying word by word takes longer than many words in one go. */
const WHOLE = 1 / 16;

/** The compiled twin of `cropPlain`: only the words that are needed are copied, beyond the mask zeros. */
export function cropFast(kernels: Kernels, mask: Mask, x: Px, y: Px, out: Mask): void {
  const from = signedWords(mask);
  const to = signedWords(out);
  const used = (out.width + 31) >>> 5;
  const first = x >> 5;
  // One word more than wanted, and what the kernel reads beyond them.
  const pitch = (used + 8) & ~3;
  const left = Math.max(0, first);
  const right = Math.min((mask.width + 31) >>> 5, first + used + 1);
  const top = Math.max(0, -y);
  const bottom = Math.min(out.height, mask.height - y);
  if (left >= right || top >= bottom) return;
  const whole = right - left >= WHOLE * mask.stride;
  const room = whole ? Math.max(pitch, mask.stride) : pitch;
  const most = Math.max(1, Math.min(bottom - top, Math.floor(BAND / (room * 4))));
  const scratch = new Scratch();
  const inputAt = scratch.take((most * pitch + 8) * 4);
  const outputAt = scratch.take((most * out.stride + 4) * 4);
  const wholeAt = whole ? scratch.take(most * mask.stride * 4) : 0;
  scratch.reserve(kernels);
  const memory = new Int32Array(kernels.memory.buffer);
  memory.fill(0, inputAt >> 2, (inputAt >> 2) + most * pitch + 8);
  for (let row = top; row < bottom; row += most) {
    const rows = Math.min(most, bottom - row);
    if (whole) {
      const source = (y + row) * mask.stride;
      memory.set(from.subarray(source, source + rows * mask.stride), wholeAt >> 2);
      const wanted = 4 * (right - left);
      const at = inputAt + 4 * (left - first);
      kernels.gatherRows(wholeAt + 4 * left, mask.stride * 4, rows, wanted, at, pitch * 4);
    } else
      copyWindow(
        from,
        mask.stride,
        left,
        y + row,
        right - left,
        rows,
        memory,
        (inputAt >> 2) + left - first,
        pitch,
      );
    kernels.cropRows(inputAt, pitch * 4, rows, x & 31, used, tailBits(out.width), outputAt, out.stride * 4);
    to.set(memory.subarray(outputAt >> 2, (outputAt >> 2) + rows * out.stride), row * out.stride);
  }
}
