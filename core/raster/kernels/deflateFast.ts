import { BitWriter } from '../bitWriter.ts';
import { CHUNK, LENGTH_ORDER } from './deflatePlain.ts';
import { type Kernels, Scratch } from './load.ts';

/** Bytes of the kernel's lists: two of 32 Ki places, 16 Ki tokens, and what its codes take. */
const ROOM = 2 * 131072 + 65536 + 16384;

/** The compiled twin of `deflatePlain`, which gives the same bytes. */
export function deflateFast(kernels: Kernels, input: Uint8Array): Uint8Array {
  const most = Math.min(CHUNK, input.length);
  const scratch = new Scratch();
  const stateAt = scratch.take(16);
  const orderAt = scratch.take(LENGTH_ORDER.length * 4);
  const roomAt = scratch.take(ROOM);
  const inputAt = scratch.take(most + 16);
  const outAt = scratch.take(most + (most >> 10) + 1024);
  scratch.reserve(kernels);
  const words = new Int32Array(kernels.memory.buffer);
  const bytes = new Uint8Array(kernels.memory.buffer);
  words.set(LENGTH_ORDER, orderAt >> 2);
  words.set([0, 0, 1, 0], stateAt >> 2);
  const out = new BitWriter(input.length >>> 2);
  out.append(Uint8Array.of(0x78, 0x9c));
  for (let from = 0; from < input.length || from === 0; from += CHUNK) {
    const to = Math.min(input.length, from + CHUNK);
    bytes.set(input.subarray(from, to), inputAt);
    const last = to === input.length ? 1 : 0;
    const size = kernels.deflateChunk(inputAt, to - from, outAt, roomAt, orderAt, stateAt, last);
    out.append(bytes.subarray(outAt, outAt + size));
  }
  const [a, b] = [words[(stateAt >> 2) + 2]!, words[(stateAt >> 2) + 3]!];
  out.append(Uint8Array.of(b >> 8, b & 255, a >> 8, a & 255));
  return out.finish();
}
