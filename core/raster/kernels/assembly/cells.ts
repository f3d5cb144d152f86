// Which cells of a coarse grid have ink: the fast twin of ../cellsPlain.ts, whose comments state the scheme.

/**
 * From rows of `pitch` bytes at `words`: rows `starts` to before `stops` of each of `high` rows of cells, and of each of `count` pixels from bit
 * `begin` on the cells that it begins in or covers, first (`firsts`) and one past the last (`ends`), and the last pixel (`lasts`, from `begin`) that
 * lies in these. Cells with ink become 1 in `out`, `stepI` bytes from one to the next across and `stepJ` from a row to the one above it.
 */
export function inkCells(
  words: usize,
  pitch: usize,
  starts: usize,
  stops: usize,
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
    const start = load<i32>(starts + (<usize>j << 2));
    const stop = load<i32>(stops + (<usize>j << 2));
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
