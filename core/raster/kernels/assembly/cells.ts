// Which cells of a coarse grid have ink: the fast twin of ../cellsPlain.ts, whose comments state the scheme.

/**
 * Of each of `count` columns of pixels from `begin` on, in a grid whose cells, `per` pixels wide, begin at `left`: the cells that it begins in or
 * covers, first and one past the last, and the last column that lies in these, counted from `begin`. Less than `noise` of a pixel is rounding.
 */
export function cellColumns(
  begin: i32,
  count: i32,
  left: f64,
  per: f64,
  noise: f64,
  firsts: usize,
  ends: usize,
  lasts: usize,
): void {
  for (let i = 0; i < count; i++) {
    const x = begin + i;
    const first = max(0, <i32>Math.floor((<f64>x - left) / per + noise));
    const end = max(first + 1, <i32>Math.floor((<f64>(x + 1) - left) / per + noise));
    const at = <usize>i << 2;
    store<i32>(firsts + at, first);
    store<i32>(ends + at, end);
    store<i32>(lasts + at, max(x, <i32>Math.ceil(left + <f64>end * per - noise) - 1) - begin);
  }
}

/**
 * From rows `from` to before `to` of a raster, of `pitch` bytes at `words`: by each of `high` rows of cells, the first beginning at `above`, its rows
 * together, and in these the `count` columns from bit `begin` on, of which `cellColumns` tells. Cells with ink become 1 in `out`, `stepI` bytes from one
 * to the next across and `stepJ` from a row to the one above it.
 */
export function inkCells(
  words: usize,
  pitch: usize,
  from: i32,
  to: i32,
  above: f64,
  per: f64,
  noise: f64,
  high: i32,
  wide: i32,
  begin: i32,
  count: i32,
  firsts: usize,
  ends: usize,
  lasts: usize,
  joined: usize,
  stepI: i32,
  stepJ: i32,
  out: usize,
): void {
  for (let j = 0; j < high; j++) {
    const y0 = <i32>Math.floor(above + <f64>j * per + noise);
    const y1 = max(y0 + 1, <i32>Math.floor(above + <f64>(j + 1) * per + noise));
    const start = max(0, y0 - from);
    const stop = min(to - from, y1 - from);
    if (start >= stop) continue;
    memory.copy(joined, words + <usize>start * pitch, pitch);
    for (let y = start + 1; y < stop; y++) {
      const from = words + <usize>y * pitch;
      for (let w: usize = 0; w < pitch; w += 4)
        store<u32>(joined + w, load<u32>(joined + w) | load<u32>(from + w));
    }
    const row = out + <usize>((high - 1 - j) * stepJ);
    for (let x = 0; x < count; x++) {
      const p = begin + x;
      const bits = load<u32>(joined + (<usize>(p >> 5) << 2)) >>> (p & 31);
      if (bits == 0) {
        x += 31 - (p & 31);
        continue;
      }
      const bare = ctz(bits);
      if (bare > 0) {
        x += <i32>bare - 1;
        continue;
      }
      const end = min(wide, load<i32>(ends + (<usize>x << 2)));
      for (let i = load<i32>(firsts + (<usize>x << 2)); i < end; i++) store<u8>(row + <usize>(i * stepI), 1);
      x = load<i32>(lasts + (<usize>x << 2));
    }
  }
}
