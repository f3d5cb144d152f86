// Which points of thin ink stay when it is drawn in: the fast twin of ../drawInPlain.ts. Bits are packed rows of `pitch` bytes, a
// multiple of 16; distances are squared, in 16 bits.

/** Bytes of 255 for the set ones of 16 bits. */
// @ts-ignore: decorator
@inline
function spreadBits(bits: i32): v128 {
  const each = i8x16(1, 2, 4, 8, 16, 32, 64, -128, 1, 2, 4, 8, 16, 32, 64, -128);
  const halves = i8x16.swizzle(i16x8.splat(<i16>bits), i8x16(0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1, 1, 1));
  return i8x16.eq(v128.and(halves, each), each);
}

/** Points from every column's point in row `y` to the nearest bare one upwards or downwards, from those of the row before. */
function walkRow(input: usize, pitch: i32, inRows: i32, y: i32, x: i32, columns: i32, walk: usize, far: i32): void {
  const row = input + <usize>y * pitch;
  const inside = y >= 0 && y < inRows;
  for (let i = 0; i < columns; i += 16) {
    const at = (x + i) >> 3;
    if (!inside || at < 0 || at >= pitch) {
      v128.store(walk + i, i32x4.splat(0));
      continue;
    }
    const next = i8x16.min_u(i8x16.add(v128.load(walk + i), i8x16.splat(1)), i8x16.splat(<i8>far));
    v128.store(walk + i, v128.and(next, spreadBits(load<u16>(row + at))));
  }
}

/**
 * Squared distances to the nearest bare point for `rows` rows from `y` and `columns` columns (a multiple of 8) from `x`, `most` at
 * most, to `map`. `reach`² is less than `most`; (reach + 1)² is not. `walk`: columns + 2 reach + 32 bytes; `steps`, for every row as many; `line` twice
 * as many.
 */
function distances(
  input: usize,
  pitch: i32,
  inRows: i32,
  y: i32,
  rows: i32,
  x: i32,
  columns: i32,
  reach: i32,
  most: i32,
  walk: usize,
  steps: usize,
  line: usize,
  map: usize,
): void {
  // Bits are read sixteen at a time.
  const x0 = (x - reach) & ~15;
  const wide = (x + columns + reach - x0 + 15) & ~15;
  memory.fill(walk, 0, wide);
  for (let row = -reach - 1; row < rows; row++) {
    walkRow(input, pitch, inRows, y + row, x0, wide, walk, reach + 1);
    if (row >= 0) memory.copy(steps + <usize>row * wide, walk, wide);
  }
  memory.fill(walk, 0, wide);
  for (let row = rows + reach; row >= 0; row--) {
    walkRow(input, pitch, inRows, y + row, x0, wide, walk, reach + 1);
    if (row >= rows) continue;
    const own = steps + <usize>row * wide;
    for (let i = 0; i < wide; i += 16) {
      const least = i8x16.min_u(v128.load(own + i), v128.load(walk + i));
      v128.store(line + 2 * i, i16x8.extmul_low_i8x16_u(least, least));
      v128.store(line + 2 * i + 16, i16x8.extmul_high_i8x16_u(least, least));
    }
    const middle = line + 2 * (x - x0);
    const out = map + 2 * <usize>row * columns;
    for (let i = 0; i < columns; i += 8) {
      let least = i16x8.min_u(v128.load(middle + 2 * i), i16x8.splat(<i16>most));
      for (let dx = 1; dx <= reach; dx++) {
        const near = i16x8.min_u(v128.load(middle + 2 * (i - dx)), v128.load(middle + 2 * (i + dx)));
        least = i16x8.min_u(least, i16x8.add_sat_u(near, i16x8.splat(<i16>(dx * dx))));
      }
      v128.store(out + 2 * i, least);
    }
  }
}

/**
 * Adds to `kept` those of the points asked for that stay: row `first + j` of the input is row j of `asked` and `kept`. Looked at in pieces of 128 ×
 * `tall` points. A point with squared distance n stays unless some point less than √d away has squared distance d > least[n]. `discs` is
 * (2 reach + 1) rows of `across` numbers, a multiple of 8: the squared length of every step, 65535 beyond. The other scratch: see `distances`.
 */
export function stayRows(
  input: usize,
  pitch: i32,
  inRows: i32,
  first: i32,
  rows: i32,
  asked: usize,
  kept: usize,
  tall: i32,
  reach: i32,
  most: i32,
  least: usize,
  discs: usize,
  across: i32,
  walk: usize,
  steps: usize,
  line: usize,
  map: usize,
): void {
  for (let top = 0; top < rows; top += tall) {
    const end = min(rows, top + tall);
    for (let at = 0; at < pitch; at += 16) {
      let y0 = -1;
      let y1 = 0;
      let any = i32x4.splat(0);
      for (let y = top; y < end; y++) {
        const bits = v128.load(asked + <usize>y * pitch + at);
        if (!v128.any_true(bits)) continue;
        if (y0 < 0) y0 = y;
        y1 = y;
        any = v128.or(any, bits);
      }
      if (y0 < 0) continue;
      const low = i64x2.extract_lane(any, 0);
      const high = i64x2.extract_lane(any, 1);
      const x0 = (at << 3) + <i32>(low != 0 ? ctz(low) : 64 + ctz(high));
      const x1 = (at << 3) + <i32>(high != 0 ? 127 - clz(high) : 63 - clz(low));
      const columns = (x1 - x0 + 1 + across + 7) & ~7;
      distances(
        input,
        pitch,
        inRows,
        first + y0 - reach,
        y1 - y0 + 1 + 2 * reach,
        x0 - reach,
        columns,
        reach,
        most,
        walk,
        steps,
        line,
        map,
      );
      for (let y = y0; y <= y1; y++) {
        const from = asked + <usize>y * pitch;
        const to = kept + <usize>y * pitch;
        for (let word = (x0 >> 5) << 2; word <= (x1 >> 5) << 2; word += 4) {
          let stays = 0;
          for (let bits = load<u32>(from + word); bits != 0; bits &= bits - 1) {
            const bit = ctz(bits);
            // The place of (x − reach, y − reach) in the map.
            const corner = map + 2 * (<usize>(y - y0) * columns + (<usize>word << 3) + bit - x0);
            const own = load<u16>(corner + 2 * (<usize>reach * columns + reach));
            const bound = i16x8.splat(load<i16>(least + 2 * <usize>own));
            if (!reached(corner, columns, reach, discs, across, bound)) stays |= 1 << bit;
          }
          if (stays != 0) store<i32>(to + word, load<i32>(to + word) | stays);
        }
      }
    }
  }
}

/** Whether some point near has a disc that takes in the middle, with more than `bound`; the middle's own rows first. */
function reached(corner: usize, columns: i32, reach: i32, discs: usize, across: i32, bound: v128): bool {
  for (let k = 0; k <= 2 * reach; k++) {
    const row = k & 1 ? reach + ((k + 1) >> 1) : reach - (k >> 1);
    const near = corner + 2 * <usize>row * columns;
    const far = discs + 2 * <usize>row * across;
    for (let i = 0; i < 2 * across; i += 16)
      if (v128.any_true(i16x8.gt_u(v128.load(near + i), i16x8.max_u(v128.load(far + i), bound)))) return true;
  }
  return false;
}

/** Adds the ink of `what` to `into`: both `bytes` long, a multiple of 16. */
export function addRows(into: usize, what: usize, bytes: usize): void {
  for (let i: usize = 0; i < bytes; i += 16)
    v128.store(into + i, v128.or(v128.load(into + i), v128.load(what + i)));
}

/** Takes the ink of `what` from `from`: both `bytes` long, a multiple of 16. */
export function lessRows(from: usize, what: usize, bytes: usize): void {
  for (let i: usize = 0; i < bytes; i += 16)
    v128.store(from + i, v128.andnot(v128.load(from + i), v128.load(what + i)));
}
