/**
 * Disc growth on packed rows, the readable definition. With h(v) the disc's half-width v rows from its centre,
 *   out(y) = ⋃ over v of H[h(v)](row y−v ∪ row y+v),   H[k] = growth by k points to the left and right.
 * Since H[a](H[b](x)) = H[a+b](x) and h falls with v, this is Horner's scheme: start with the row itself, then for
 * v = 1, 2 … grow the sum by h(v−1) − h(v) and add the rows y ± v; at last grow by h(⌊r⌋). Shrinking is the same with ∩
 * and, beyond the mask, bare rows.
 */

/** dst = src grown (or shrunk) by k ≤ 31 points sideways; words −1 and n of src must be readable as 0. */
function growSideways(src: Int32Array, dst: Int32Array, n: number, k: number): void {
  for (let i = 1; i <= n; i++) {
    const w = src[i]!;
    const before = src[i - 1]!;
    const after = src[i + 1]!;
    if ((w | before | after) === 0) {
      dst[i] = 0;
      continue;
    }
    let sum = w;
    for (let s = 1; s <= k; s++) sum |= (w << s) | (before >>> (32 - s)) | (w >>> s) | (after << (32 - s));
    dst[i] = sum;
  }
}

function shrinkSideways(src: Int32Array, dst: Int32Array, n: number, k: number): void {
  for (let i = 1; i <= n; i++) {
    const w = src[i]!;
    if (w === 0) {
      dst[i] = 0;
      continue;
    }
    const before = src[i - 1]!;
    const after = src[i + 1]!;
    let sum = w;
    for (let s = 1; s <= k; s++)
      sum &= ((w << s) | (before >>> (32 - s))) & ((w >>> s) | (after << (32 - s)));
    dst[i] = sum;
  }
}

/** What rows are like and what is done to them. */
export interface GrowRows {
  /** 32-bit words a row, those of them in use, and the bits of the last one of those. */
  readonly stride: number;
  readonly words: number;
  readonly tail: number;
  readonly height: number;
  /** The disc, see `discHalfWidths`. */
  readonly half: Int32Array;
}

/**
 * Grows (`shrinking` false) or shrinks rows of `words` 32-bit words by the disc of `half`. `input` and `output` hold
 * `height` rows and must not overlap; words beyond the used ones stay as they are, and the last used one is cut to `tail`.
 */
export function growRowsPlain(
  input: Int32Array,
  output: Int32Array,
  { stride, words, tail, height, half }: GrowRows,
  shrinking: boolean,
): void {
  const reach = half.length - 1;
  // A guard word on either side, so that the neighbours of the first and last word read as bare.
  let a = new Int32Array(words + 2);
  let b = new Int32Array(words + 2);
  const sideways = shrinking ? shrinkSideways : growSideways;
  for (let y = 0; y < height; y++) {
    for (let i = 0, p = y * stride; i < words; i++, p++) a[i + 1] = input[p]!;
    for (let v = 1; v <= reach + 1; v++) {
      let step = v <= reach ? half[v - 1]! - half[v]! : half[reach]!;
      while (step > 0) {
        sideways(a, b, words, Math.min(step, 31));
        step -= 31;
        const swap = a;
        a = b;
        b = swap;
      }
      if (v > reach) break;
      const up = y - v;
      const down = y + v;
      if (shrinking) {
        if (up < 0 || down >= height) {
          a.fill(0);
          break;
        }
        for (let i = 1, p = up * stride, q = down * stride; i <= words; i++, p++, q++)
          a[i] = a[i]! & input[p]! & input[q]!;
      } else {
        if (up >= 0) for (let i = 1, p = up * stride; i <= words; i++, p++) a[i] = a[i]! | input[p]!;
        if (down < height) for (let i = 1, q = down * stride; i <= words; i++, q++) a[i] = a[i]! | input[q]!;
      }
    }
    a[words] = a[words]! & tail;
    for (let i = 0, p = y * stride; i < words; i++, p++) output[p] = a[i + 1]!;
  }
}
