import { BitWriter } from '../bitWriter.ts';
import { EOFB } from '../g4Codes.ts';
import { type Mask, signedWords } from '../mask.ts';
import { LENGTHS, VALUES, VERTICAL_LENGTHS, VERTICAL_VALUES } from './encodeG4Plain.ts';
import { type Kernels, Scratch } from './load.ts';

/** Bytes of a band's rows, and of its code at the worst, that are aimed at. */
const BAND = 1 << 17;

/** The compiled twin of `encodeG4Plain`: bands of rows, what waits between them handed on. */
export function encodeG4Fast(kernels: Kernels, mask: Mask): Uint8Array {
  const { width, height, stride } = mask;
  const words = signedWords(mask);
  const worst = width + 16;
  const most = Math.max(1, Math.min(height, Math.floor(BAND / Math.max(worst, stride * 4))));
  const scratch = new Scratch();
  const codesAt = scratch.take(VALUES.byteLength + LENGTHS.byteLength);
  const verticalAt = scratch.take(VERTICAL_VALUES.byteLength + VERTICAL_LENGTHS.byteLength);
  const stateAt = scratch.take(8);
  const rowAt = scratch.take((width + 8) * 4);
  const aboveAt = scratch.take((width + 8) * 4);
  const inputAt = scratch.take(most * stride * 4);
  const outAt = scratch.take(most * worst);
  scratch.reserve(kernels);
  const memory = new Int32Array(kernels.memory.buffer);
  const bytes = new Uint8Array(kernels.memory.buffer);
  memory.set(VALUES, codesAt >> 2);
  memory.set(LENGTHS, (codesAt >> 2) + VALUES.length);
  memory.set(VERTICAL_VALUES, verticalAt >> 2);
  memory.set(VERTICAL_LENGTHS, (verticalAt >> 2) + VERTICAL_VALUES.length);
  memory.fill(0, stateAt >> 2, (stateAt >> 2) + 2);
  memory.fill(width, aboveAt >> 2, (aboveAt >> 2) + 4);
  const bits = new BitWriter((stride * height) >>> 1);
  for (let y = 0; y < height; y += most) {
    const rows = Math.min(most, height - y);
    memory.set(words.subarray(y * stride, (y + rows) * stride), inputAt >> 2);
    const size = kernels.encodeG4Rows(
      inputAt,
      stride * 4,
      width,
      rows,
      rowAt,
      aboveAt,
      codesAt,
      verticalAt,
      outAt,
      stateAt,
    );
    bits.append(bytes.subarray(outAt, outAt + size));
  }
  bits.put(memory[stateAt >> 2]!, memory[(stateAt >> 2) + 1]!);
  bits.put(Number.parseInt(EOFB, 2), EOFB.length);
  return bits.finish();
}
