import { type Kernels, Scratch } from './load.ts';

/** Points a band aims at: with all that is known of them they stay in the processor's second cache. */
const BAND = 1 << 16;
/** Bytes that the kernel reads beyond the words. */
const OVER = 160;

/**
 * The cores of a picture's points, by their words and codes, into `cores`; `found` is handed the places of those that are not sure, band by
 * band, ascending, and must copy what it keeps. See `coresOf` in core/separate/cores.ts, the readable definition.
 */
export function pureCoresFast(
  kernels: Kernels,
  words: Int32Array,
  codes: Uint8Array,
  width: number,
  height: number,
  cores: Uint8Array,
  found: (places: Int32Array) => void,
): void {
  const most = Math.max(1, Math.min(height, Math.floor(BAND / width)));
  const pitch = ((width + 31) >>> 5) << 2;
  const points = (most + 2) * width;
  const scratch = new Scratch();
  const wordsAt = scratch.take((points + width) * 4 + OVER);
  const codesAt = scratch.take(points);
  const rightAt = scratch.take((most + 2) * pitch);
  const belowAt = scratch.take((most + 2) * pitch);
  const coresAt = scratch.take(points);
  const softAt = scratch.take(most * width * 4);
  scratch.reserve(kernels);
  const memory = new Int32Array(kernels.memory.buffer);
  const bytes = new Uint8Array(kernels.memory.buffer);
  for (let y = 0; y < height; y += most) {
    const count = Math.min(most, height - y);
    const top = Math.max(0, y - 1);
    const rows = Math.min(height, y + count + 1) - top;
    const [from, end] = [top * width, (top + rows) * width];
    memory.set(words.subarray(from, end), wordsAt >> 2);
    bytes.set(codes.subarray(from, end), codesAt);
    const first = y - top;
    const n = kernels.pureCores(
      wordsAt,
      codesAt,
      width,
      rows,
      first,
      count,
      from,
      rightAt,
      belowAt,
      pitch,
      coresAt,
      softAt,
    );
    const at = coresAt + first * width;
    cores.set(bytes.subarray(at, at + count * width), y * width);
    found(memory.subarray(softAt >> 2, (softAt >> 2) + n));
  }
}
