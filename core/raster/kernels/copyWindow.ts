/**
 * `words` words of each of `rows` rows of `stride` words, from word `x` of row `y` on, to rows of `pitch` words from `at` on. A plain loop: where
 * rows are short, a view of each takes longer than its words, and has to be cleared away.
 */
export function copyWindow(
  from: Int32Array,
  stride: number,
  x: number,
  y: number,
  words: number,
  rows: number,
  to: Int32Array,
  at: number,
  pitch: number,
): void {
  for (let row = 0; row < rows; row++) {
    const source = (y + row) * stride + x;
    const target = at + row * pitch;
    for (let w = 0; w < words; w++) to[target + w] = from[source + w]!;
  }
}
