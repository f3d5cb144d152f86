import { downsampleFast, WIDEST_SQUARE } from './kernels/downsampleFast.ts';
import { kernels } from './kernels/load.ts';
import { type Mask, signedWords } from './mask.ts';
import { bitsIn } from './measure.ts';
import { blankPlane, type Plane } from './plane.ts';

/** Points with ink among [from, to) of the row that begins at word `row`. */
function inkBetween(words: Int32Array, row: number, from: number, to: number): number {
  if (from >= to) return 0;
  const first = from >>> 5;
  const last = (to - 1) >>> 5;
  const head = -1 << (from & 31);
  const tail = -1 >>> (31 - ((to - 1) & 31));
  if (first === last) return bitsIn(words[row + first]! & head & tail);
  let count = bitsIn(words[row + first]! & head);
  for (let w = first + 1; w < last; w++) count += bitsIn(words[row + w]!);
  return count + bitsIn(words[row + last]! & tail);
}

/**
 * The share of ink in each square of `factor` × `factor` points, 0 to 255, rounded: for proofs and previews. Squares
 * that reach beyond the mask's right and lower border count the part outside as bare. `factor` is whole and ≥ 1.
 */
export function downsample(mask: Mask, factor: number): Plane {
  if (!Number.isInteger(factor) || factor < 1)
    throw new RangeError(`A mask is reduced by a whole factor of at least 1, not by ${factor}.`);
  const plane = blankPlane(Math.ceil(mask.width / factor), Math.ceil(mask.height / factor));
  const fast = factor > 1 && factor <= WIDEST_SQUARE && plane.width > 0 ? kernels() : null;
  if (fast) downsampleFast(fast, mask, factor, plane);
  else downsamplePlain(mask, factor, plane);
  return plane;
}

/** The readable definition of `downsample`, into a plane of the right size. */
export function downsamplePlain(mask: Mask, factor: number, plane: Plane): void {
  const words = signedWords(mask);
  const counts = new Int32Array(plane.width);
  const full = factor * factor;
  for (let row = 0; row < plane.height; row++) {
    counts.fill(0);
    const end = Math.min(mask.height, (row + 1) * factor);
    for (let y = row * factor; y < end; y++) addRow(words, y * mask.stride, mask.width, factor, counts);
    const at = row * plane.width;
    for (let x = 0; x < plane.width; x++) plane.data[at + x] = Math.round((counts[x]! * 255) / full);
  }
}

/** Adds to each count the ink among its `factor` points of the row that begins at word `row`. */
function addRow(words: Int32Array, row: number, width: number, factor: number, counts: Int32Array): void {
  if (factor > 32) {
    for (let x = 0, from = 0; x < counts.length; x++, from += factor)
      counts[x] = counts[x]! + inkBetween(words, row, from, Math.min(from + factor, width));
    return;
  }
  // Points beyond the width are bits that are 0, and no count begins there.
  const bits = -1 >>> (32 - factor);
  for (let x = 0, from = 0; x < counts.length; x++, from += factor) {
    const word = row + (from >>> 5);
    const shift = from & 31;
    let ink = words[word]! >>> shift;
    // Only where the row goes on: the word behind its last one belongs to the next row.
    if (shift + factor > 32 && from + 32 - shift < width) ink |= words[word + 1]! << (32 - shift);
    ink &= bits;
    if (ink !== 0) counts[x] = counts[x]! + (ink === bits ? factor : bitsIn(ink));
  }
}
