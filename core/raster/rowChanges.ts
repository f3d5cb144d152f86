/**
 * Where ink begins and ends in a row that starts at word `row`: for each run its first point and the point after its last,
 * ascending, into `changes` (at least width + 2 long). Returns how many numbers were written: twice the runs. `flip` −1 reads
 * the row's complement instead. Words without a change cost one comparison.
 */
export function rowChanges(
  words: Int32Array,
  row: number,
  width: number,
  flip: 0 | -1,
  changes: Int32Array,
): number {
  const used = (width + 31) >>> 5;
  let n = 0;
  let carry = 0;
  for (let i = 0; i < used; i++) {
    const word = words[row + i]! ^ flip;
    // Bit x is 1 where point x differs from the point before it.
    let differing = word ^ ((word << 1) | carry);
    carry = word >>> 31;
    while (differing !== 0) {
      const lowest = differing & -differing;
      changes[n++] = i * 32 + 31 - Math.clz32(lowest);
      differing ^= lowest;
    }
  }
  // In a complement the bits beyond the width are set: drop a run that starts there.
  if ((n & 1) === 1 && changes[n - 1] === width) n--;
  if ((n & 1) === 1) changes[n++] = width;
  return n;
}
