// Where a picture of cells has edges and which way they face: the fast twin of ../edgesPlain.ts, whose comments state the scheme.

/** 1 in `mixed` for cells within `reach` of a change of `ink` along either axis. */
export function edgeCells(ink: usize, rows: i32, columns: i32, reach: i32, mixed: usize): void {
  memory.fill(mixed, 0, <usize>(rows * columns));
  for (let p = 0; p < rows; p++) {
    const row = p * columns;
    for (let q = 0; q < columns; q++) {
      const at = row + q;
      const own = load<u8>(ink + <usize>at);
      if (q + 1 < columns && own != load<u8>(ink + <usize>(at + 1))) {
        const from = max(0, q + 1 - reach);
        memory.fill(mixed + <usize>(row + from), 1, <usize>(min(columns, q + 1 + reach) - from));
      }
      if (p + 1 < rows && own != load<u8>(ink + <usize>(at + columns))) {
        const last = min(rows - 1, p + reach);
        for (let pp = max(0, p + 1 - reach); pp <= last; pp++)
          store<u8>(mixed + <usize>(pp * columns + q), 1);
      }
    }
  }
}

/**
 * The sums of four counts, a byte each, over squares of 2 × `reach` + 1 cells: gradients along p, along q, and their products above
 * and below 0. `counts` takes the counts and `line` columns + 2 × reach + 1 words.
 */
export function edgeSums(
  ink: usize,
  mixed: usize,
  rows: i32,
  columns: i32,
  reach: i32,
  counts: usize,
  line: usize,
  sums: usize,
): void {
  const pitch = (<usize>columns) << 2;
  memory.fill(counts, 0, <usize>rows * pitch);
  for (let p = 1; p + 1 < rows; p++)
    for (let q = 1; q + 1 < columns; q++) {
      const at = <usize>(p * columns + q);
      if (load<u8>(mixed + at) == 0) continue;
      const i = ink + at;
      const gp = <i32>load<u8>(i + <usize>columns) - <i32>load<u8>(i - <usize>columns);
      const gq = <i32>load<u8>(i + 1) - <i32>load<u8>(i - 1);
      const both = gp * gq;
      store<i32>(
        counts + (at << 2),
        (gp & 1) | ((gq & 1) << 8) | (both > 0 ? 1 << 16 : both < 0 ? 1 << 24 : 0),
      );
    }
  const span = (<usize>(2 * reach + 1)) << 2;
  memory.fill(line, 0, pitch + span);
  const middle = line + ((<usize>(reach + 1)) << 2);
  for (let p = 0; p < rows; p++) {
    const row = counts + <usize>p * pitch;
    memory.copy(middle, row, pitch);
    let sum = 0;
    for (let i = reach + 1; i < 2 * reach + 1; i++) sum += load<i32>(line + ((<usize>i) << 2));
    for (let q: usize = 0; q < pitch; q += 4) {
      sum += load<i32>(line + q + span) - load<i32>(line + q);
      store<i32>(row + q, sum);
    }
  }
  // Down: each row of sums is the one before it, one row more and one row less.
  for (let p = 0; p < rows; p++) {
    const to = sums + <usize>p * pitch;
    if (p == 0) {
      memory.fill(to, 0, pitch);
      for (let r = 0; r <= min(reach, rows - 1); r++)
        for (let q: usize = 0; q < pitch; q += 4)
          store<i32>(to + q, load<i32>(to + q) + load<i32>(counts + <usize>r * pitch + q));
      continue;
    }
    memory.copy(to, to - pitch, pitch);
    if (p + reach < rows) {
      const come = counts + <usize>(p + reach) * pitch;
      for (let q: usize = 0; q < pitch; q += 4) store<i32>(to + q, load<i32>(to + q) + load<i32>(come + q));
    }
    if (p - reach - 1 >= 0) {
      const gone = counts + <usize>(p - reach - 1) * pitch;
      for (let q: usize = 0; q < pitch; q += 4) store<i32>(to + q, load<i32>(to + q) - load<i32>(gone + q));
    }
  }
}

/**
 * The facing of every cell from place `from` to before `count`, into `out`. `facings` holds those of the keys met so far; returns `count`, or
 * the place of the first cell whose key is not there: then all before it are done.
 */
export function edgeFacings(
  sums: usize,
  mixed: usize,
  from: i32,
  count: i32,
  most: i32,
  clear: f64,
  facings: usize,
  out: usize,
): i32 {
  for (let at = from; at < count; at++) {
    const i = <usize>at;
    let facing: u8 = 0;
    if (load<u8>(mixed + i) != 0) {
      const sum = load<u32>(sums + (i << 2));
      const pp = <i32>(sum & 255);
      const qq = <i32>((sum >>> 8) & 255);
      const all = <f64>(pp + qq);
      const two = 2 * (<i32>((sum >>> 16) & 255) - <i32>(sum >>> 24));
      const one = pp - qq;
      if (pp + qq != 0 && <f64>(two * two + one * one) >= clear * all * all) {
        facing = load<u8>(facings + <usize>((one + most) * (4 * most + 1) + two + 2 * most));
        if (facing == 0) return at;
      }
    }
    store<u8>(out + i, facing);
  }
  return count;
}
