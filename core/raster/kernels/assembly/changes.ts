// Where ink begins and ends in packed rows.
import { put } from './lists';

/** As `rowChanges` of ../../rowChanges.ts, a row's words read two at a time; returns how many numbers were written. */
export function changesOf(row: usize, width: i32, changes: usize): i32 {
  let n = 0;
  let carry: u64 = 0;
  for (let x = 0; x < width; x += 64) {
    const word = load<u64>(row + <usize>(x >> 3));
    let differing = word ^ ((word << 1) | carry);
    carry = word >>> 63;
    while (differing != 0) {
      put(changes, n++, x + <i32>ctz(differing));
      differing &= differing - 1;
    }
  }
  // Bits beyond the width are 0: a run that reaches it ends there by a change, or by the end of the words.
  if ((n & 1) != 0) put(changes, n++, width);
  return n;
}
