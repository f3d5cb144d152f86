// Group 4 from packed rows: the fast twin of ../encodeG4Plain.ts, whose comment states the scheme.
import { changesOf } from './changes';
import { at } from './lists';

/** Bits of black codes' place in the tables: 128 of white before them. */
// @ts-ignore: decorator
@inline
const COLOUR: i32 = 128;

let bytesAt: usize = 0;
let pending: u32 = 0;
let count: i32 = 0;

// @ts-ignore: decorator
@inline
function put(code: u32, length: i32): void {
  pending = (pending << length) | code;
  count += length;
  while (count >= 8) {
    count -= 8;
    store<u8>(bytesAt, <u8>(pending >>> count));
    bytesAt++;
  }
  pending &= (1 << count) - 1;
}

/** `codes`: 256 values, then 256 lengths, of white and then of black runs. */
function putRun(codes: usize, base: i32, length: i32): void {
  let rest = length;
  while (rest >= 2624) {
    const code = codes + (<usize>(base + 103) << 2);
    put(load<u32>(code), load<i32>(code + 1024));
    rest -= 2560;
  }
  if (rest >= 64) {
    const code = codes + (<usize>(base + 63 + (rest >>> 6)) << 2);
    put(load<u32>(code), load<i32>(code + 1024));
    rest &= 63;
  }
  const code = codes + (<usize>(base + rest) << 2);
  put(load<u32>(code), load<i32>(code + 1024));
}

/**
 * Appends `rows` rows of `pitch` bytes, a multiple of 16 with zeros beyond `width`, to the code at `out`, which needs `width` + 16 bytes a
 * row. `above` holds the changes of the row above, followed by 4 times the width, and takes those of the last row; `row` has
 * the same room, width + 8 words. `state` holds the bits that wait and how many they are. Returns the bytes written.
 */
export function encodeG4Rows(
  input: usize,
  pitch: usize,
  width: i32,
  rows: i32,
  row: usize,
  above: usize,
  codes: usize,
  vertical: usize,
  out: usize,
  state: usize,
): i32 {
  bytesAt = out;
  pending = load<u32>(state);
  count = load<i32>(state + 4);
  const kept = above;
  for (let y = 0; y < rows; y++) {
    const n = changesOf(input + <usize>y * pitch, width, row);
    for (let i = n; i < n + 4; i++) store<i32>(row + (<usize>i << 2), width);
    let a0 = -1;
    let i = 0;
    let j = 0;
    while (a0 < width) {
      const a1 = at(row, i);
      let k = (j & ~1) | (i & 1);
      while (k >= 2 && at(above, k - 2) > a0) k -= 2;
      while (at(above, k) <= a0 && at(above, k) < width) k += 2;
      j = k;
      const offset = a1 - at(above, k);
      if (offset > 0 && at(above, k + 1) < a1) {
        put(1, 4);
        a0 = at(above, k + 1);
      } else if (offset >= -3 && offset <= 3) {
        const code = vertical + (<usize>(offset + 3) << 2);
        put(load<u32>(code), load<i32>(code + 28));
        a0 = a1;
        i++;
      } else {
        const a2 = at(row, i + 1);
        const first = (i & 1) == 0 ? 0 : COLOUR;
        put(1, 3);
        putRun(codes, first, a1 - max(a0, 0));
        putRun(codes, COLOUR - first, a2 - a1);
        a0 = a2;
        i += 2;
      }
    }
    const swap = row;
    row = above;
    above = swap;
  }
  if (above != kept) memory.copy(kept, above, (<usize>width + 8) << 2);
  store<u32>(state, pending);
  store<i32>(state + 4, count);
  return <i32>(bytesAt - out);
}
