// The share of ink in squares of a packed mask: the fast twin of ../downsamplePlain.ts.

/**
 * Squares of 2 × 2: sixteen bytes of two rows give 64 points. Sums are kept in 4-bit fields, one for each two columns.
 */
function halved(upper: usize, lower: usize, bytes: usize, to: usize): void {
  // Shares of 0 to 4 points of 4, rounded.
  const level = i8x16(0, 64, -128, -65, -1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0);
  const fives = i8x16.splat(0x55);
  const threes = i8x16.splat(0x33);
  const nibble = i8x16.splat(0x0f);
  for (let i: usize = 0; i < bytes; i += 16) {
    const a = v128.load(upper + i);
    const b = v128.load(lower + i);
    const p = i8x16.add(v128.and(a, fives), v128.and(i8x16.shr_u(a, 1), fives));
    const q = i8x16.add(v128.and(b, fives), v128.and(i8x16.shr_u(b, 1), fives));
    const even = i8x16.add(v128.and(p, threes), v128.and(q, threes));
    const odd = i8x16.add(v128.and(i8x16.shr_u(p, 2), threes), v128.and(i8x16.shr_u(q, 2), threes));
    const c0 = i8x16.swizzle(level, v128.and(even, nibble));
    const c1 = i8x16.swizzle(level, v128.and(odd, nibble));
    const c2 = i8x16.swizzle(level, i8x16.shr_u(even, 4));
    const c3 = i8x16.swizzle(level, i8x16.shr_u(odd, 4));
    const low01 = v128.shuffle<i8>(c0, c1, 0, 16, 1, 17, 2, 18, 3, 19, 4, 20, 5, 21, 6, 22, 7, 23);
    const high01 = v128.shuffle<i8>(c0, c1, 8, 24, 9, 25, 10, 26, 11, 27, 12, 28, 13, 29, 14, 30, 15, 31);
    const low23 = v128.shuffle<i8>(c2, c3, 0, 16, 1, 17, 2, 18, 3, 19, 4, 20, 5, 21, 6, 22, 7, 23);
    const high23 = v128.shuffle<i8>(c2, c3, 8, 24, 9, 25, 10, 26, 11, 27, 12, 28, 13, 29, 14, 30, 15, 31);
    const out = to + (i << 2);
    v128.store(out, v128.shuffle<i16>(low01, low23, 0, 8, 1, 9, 2, 10, 3, 11));
    v128.store(out + 16, v128.shuffle<i16>(low01, low23, 4, 12, 5, 13, 6, 14, 7, 15));
    v128.store(out + 32, v128.shuffle<i16>(high01, high23, 0, 8, 1, 9, 2, 10, 3, 11));
    v128.store(out + 48, v128.shuffle<i16>(high01, high23, 4, 12, 5, 13, 6, 14, 7, 15));
  }
}

/**
 * Counts the ink of `rows` ≤ 32 rows column by column, for 128 columns at a time, as binary numbers whose digits lie `bytes` +
 * 16 apart at `digits`: a carry runs through the digits for each row.
 */
function countColumns(input: usize, bytes: usize, rows: i32, places: i32, digits: usize): void {
  for (let i: usize = 0; i < bytes; i += 16) {
    let d0 = i32x4.splat(0);
    let d1 = d0;
    let d2 = d0;
    let d3 = d0;
    let d4 = d0;
    let d5 = d0;
    let p = input + i;
    for (let row = 0; row < rows; row++) {
      let carry = v128.load(p);
      p += bytes;
      let next = v128.and(d0, carry);
      d0 = v128.xor(d0, carry);
      carry = next;
      next = v128.and(d1, carry);
      d1 = v128.xor(d1, carry);
      if (places < 3) continue;
      carry = next;
      next = v128.and(d2, carry);
      d2 = v128.xor(d2, carry);
      if (places < 4) continue;
      carry = next;
      next = v128.and(d3, carry);
      d3 = v128.xor(d3, carry);
      if (places < 5) continue;
      carry = next;
      next = v128.and(d4, carry);
      d4 = v128.xor(d4, carry);
      d5 = v128.xor(d5, next);
    }
    const to = digits + i;
    const pitch = bytes + 16;
    v128.store(to, d0);
    v128.store(to + pitch, d1);
    if (places > 2) v128.store(to + 2 * pitch, d2);
    if (places > 3) v128.store(to + 3 * pitch, d3);
    if (places > 4) v128.store(to + 4 * pitch, d4);
    if (places > 5) v128.store(to + 5 * pitch, d5);
  }
}

/**
 * `outRows` rows of `outWidth` bytes at `out` from rows of `bytes` at `input`: the share of ink in squares of `factor` ≤ 32.
 * The input holds outRows × factor rows. `level` gives the byte of each count from 0 to factor²; `digits` holds 6 × (bytes + 16)
 * zeros. With a factor of 2 whole words are written: room for 4 × bytes × 16 a row.
 */
export function downsampleRows(
  input: usize,
  bytes: usize,
  factor: i32,
  level: usize,
  digits: usize,
  out: usize,
  outWidth: i32,
  outPitch: usize,
  outRows: i32,
): void {
  const places = 32 - clz(factor);
  const mask = (<u64>1 << <u64>factor) - 1;
  const pitch = bytes + 16;
  for (let row = 0; row < outRows; row++) {
    const from = input + <usize>(row * factor) * bytes;
    const to = out + <usize>row * outPitch;
    if (factor == 2) {
      halved(from, from + bytes, bytes, to);
      continue;
    }
    countColumns(from, bytes, factor, places, digits);
    let bit = 0;
    for (let x = 0; x < outWidth; x++, bit += factor) {
      const at = digits + <usize>(bit >> 3);
      const by = <u64>(bit & 7);
      let count: u64 = popcnt((load<u64>(at) >> by) & mask);
      count += popcnt((load<u64>(at + pitch) >> by) & mask) << 1;
      if (places > 2) count += popcnt((load<u64>(at + 2 * pitch) >> by) & mask) << 2;
      if (places > 3) count += popcnt((load<u64>(at + 3 * pitch) >> by) & mask) << 3;
      if (places > 4) count += popcnt((load<u64>(at + 4 * pitch) >> by) & mask) << 4;
      if (places > 5) count += popcnt((load<u64>(at + 5 * pitch) >> by) & mask) << 5;
      store<u8>(to + <usize>x, load<u8>(level + <usize>count));
    }
  }
}
