import { type Kernels, kernels, Scratch } from './kernels/load.ts';
import { blankMask, type Mask, rowsOf, signedWords } from './mask.ts';

/** Bytes of rows that a band aims at. */
const BAND = 1 << 17;

/** Where `within` has ink and none of the same-sized masks has any, in the rows `top` to before `bottom`. */
export function bareRows(within: Mask, masks: readonly Mask[], top: number, bottom: number): Mask {
  const bare = blankMask(within.width, Math.max(0, bottom - top));
  const words = signedWords(bare);
  const [may, ...inks] = [within, ...masks].map((mask) => signedWords(rowsOf(mask, top, bottom))) as [
    Int32Array,
    ...Int32Array[],
  ];
  const fast = kernels();
  if (fast) bareFast(fast, may, inks, words);
  else barePlain(may, inks, words);
  return bare;
}

/** Words of `may` less those of all `inks`, into blank `out`: the definition and the fallback of `bareFast`. */
export function barePlain(may: Int32Array, inks: readonly Int32Array[], out: Int32Array): void {
  for (let i = 0; i < out.length; i++) {
    let word = may[i]!;
    for (let k = 0; word !== 0 && k < inks.length; k++) word &= ~inks[k]![i]!;
    if (word !== 0) out[i] = word;
  }
}

/** The same, band by band; bare film of the result is not written to. */
function bareFast(kernels: Kernels, may: Int32Array, inks: readonly Int32Array[], out: Int32Array): void {
  const size = Math.min(BAND >> 2, out.length);
  const scratch = new Scratch();
  const at = scratch.take(size * 4);
  const inkAt = scratch.take(size * 4);
  scratch.reserve(kernels);
  const memory = new Int32Array(kernels.memory.buffer);
  for (let from = 0; from < out.length; from += size) {
    const count = Math.min(size, out.length - from);
    memory.set(may.subarray(from, from + count), at >> 2);
    for (const ink of inks) {
      if (kernels.inked(at, count * 4) === 0) break;
      memory.set(ink.subarray(from, from + count), inkAt >> 2);
      kernels.lessRows(at, inkAt, count * 4);
    }
    if (kernels.inked(at, count * 4) !== 0) out.set(memory.subarray(at >> 2, (at >> 2) + count), from);
  }
}
