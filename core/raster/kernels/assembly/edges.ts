// Where a picture of cells has edges and which way they face: the fast twin of ../edgesPlain.ts, whose comments state the scheme.

/** 1 for the cells of a row within `reach` of the change between cells `q` and q + 1. */
// @ts-ignore: decorator
@inline
function mixBeside(row: usize, columns: i32, q: i32, reach: i32): void {
  const from = max(0, q + 1 - reach);
  const to = min(columns, q + 1 + reach);
  if (to - from == 8) store<u64>(row + <usize>from, 0x0101010101010101);
  else for (let i = from; i < to; i++) store<u8>(row + <usize>i, 1);
}

/** 1 in `mixed` for cells within `reach` of a change of `ink` along either axis. */
export function edgeCells(ink: usize, rows: i32, columns: i32, reach: i32, mixed: usize): void {
  memory.fill(mixed, 0, <usize>(rows * columns));
  for (let p = 0; p < rows; p++) {
    const row = p * columns;
    const below = p + 1 < rows;
    for (let q = 0; q < columns; ) {
      // Eight cells at a time, each a byte of 0 or 1, but for the row's last ones.
      if (q + 8 < columns) {
        const i = ink + <usize>(row + q);
        const own = load<u64>(i);
        for (let change = own ^ load<u64>(i + 1); change != 0; change &= change - 1)
          mixBeside(mixed + <usize>row, columns, q + (<i32>ctz(change) >> 3), reach);
        const change = below ? own ^ load<u64>(i + <usize>columns) : 0;
        if (change != 0) {
          const last = min(rows - 1, p + reach);
          for (let pp = max(0, p + 1 - reach); pp <= last; pp++) {
            const to = mixed + <usize>(pp * columns + q);
            store<u64>(to, load<u64>(to) | change);
          }
        }
        q += 8;
        continue;
      }
      for (; q < columns; q++) {
        const at = row + q;
        const own = load<u8>(ink + <usize>at);
        if (q + 1 < columns && own != load<u8>(ink + <usize>(at + 1)))
          mixBeside(mixed + <usize>row, columns, q, reach);
        if (below && own != load<u8>(ink + <usize>(at + columns))) {
          const last = min(rows - 1, p + reach);
          for (let pp = max(0, p + 1 - reach); pp <= last; pp++)
            store<u8>(mixed + <usize>(pp * columns + q), 1);
        }
      }
    }
  }
}

/**
 * The sums of four counts, a byte each, over squares of 2 × `reach` + 1 cells: gradients along p, along q, and their products above
 * and below 0. `counts` takes the counts, `line` columns + 2 × reach + 1 words and `some` a byte a row; `counts` and `sums` must be readable and
 * writable 12 bytes beyond their ends.
 */
export function edgeSums(
  ink: usize,
  mixed: usize,
  rows: i32,
  columns: i32,
  reach: i32,
  counts: usize,
  line: usize,
  some: usize,
  sums: usize,
): void {
  const pitch = (<usize>columns) << 2;
  memory.fill(counts, 0, <usize>rows * pitch);
  memory.fill(some, 0, <usize>rows);
  for (let p = 1; p + 1 < rows; p++)
    for (let q = 1; q + 1 < columns; q++) {
      const at = <usize>(p * columns + q);
      if (q + 8 < columns && load<u64>(mixed + at) == 0) {
        q += 7;
        continue;
      }
      if (load<u8>(mixed + at) == 0) continue;
      store<u8>(some + <usize>p, 1);
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
    // A row without counts has sums without counts.
    if (load<u8>(some + <usize>p) == 0) continue;
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
    const comes = p + reach < rows && load<u8>(some + <usize>(p + reach)) != 0;
    const goes = p - reach - 1 >= 0 && load<u8>(some + <usize>(p - reach - 1)) != 0;
    if (!comes && !goes) {
      memory.copy(to, to - pitch, pitch);
      continue;
    }
    const come = counts + <usize>(p + reach) * pitch;
    const gone = counts + <usize>(p - reach - 1) * pitch;
    // Four values at a time; what is written beyond a row is written anew with the next one.
    for (let q: usize = 0; q < pitch; q += 16) {
      let sum = v128.load(to - pitch + q);
      if (comes) sum = i32x4.add(sum, v128.load(come + q));
      if (goes) sum = i32x4.sub(sum, v128.load(gone + q));
      v128.store(to + q, sum);
    }
  }
}

/**
 * The code of every cell from place `from` to before `count`, into `out`: whether it is mixed, twice whether it has ink, four times its facing.
 * `facings` holds those of the keys met so far; returns `count`, or the place of the first cell whose key is not there: then all before it are done.
 */
export function edgeCodes(
  sums: usize,
  ink: usize,
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
    if (at + 8 <= count && load<u64>(mixed + i) == 0) {
      // Bytes are 0 or 1, and so none of them runs over into the next.
      store<u64>(out + i, load<u64>(ink + i) << 1);
      at += 7;
      continue;
    }
    const own = load<u8>(ink + i) << 1;
    if (load<u8>(mixed + i) == 0) {
      store<u8>(out + i, own);
      continue;
    }
    let facing: u8 = 0;
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
    store<u8>(out + i, (facing << 2) | own | 1);
  }
  return count;
}
