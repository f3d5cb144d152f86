/** Longest code that deflate allows for literals, lengths and distances, bits; and for the lengths of those codes. */
export const LONGEST = 15;
export const LONGEST_OF_LENGTHS = 7;

/**
 * Depths of an optimal prefix tree for weights in ascending order, in their place: the in-place algorithm of A. Moffat and
 * J. Katajainen, "In-Place Calculation of Minimum-Redundancy Codes" (1995), from memory. At least two weights.
 */
function depths(a: Int32Array, n: number): void {
  a[0]! += a[1]!;
  let root = 0;
  let leaf = 2;
  for (let next = 1; next < n - 1; next++) {
    if (leaf >= n || a[root]! < a[leaf]!) {
      a[next] = a[root]!;
      a[root++] = next;
    } else a[next] = a[leaf++]!;
    if (leaf >= n || (root < next && a[root]! < a[leaf]!)) {
      a[next]! += a[root]!;
      a[root++] = next;
    } else a[next]! += a[leaf++]!;
  }
  a[n - 2] = 0;
  for (let next = n - 3; next >= 0; next--) a[next] = a[a[next]!]! + 1;
  let free = 1;
  let depth = 0;
  let next = n - 1;
  root = n - 2;
  while (free > 0) {
    let inner = 0;
    while (root >= 0 && a[root] === depth) {
      inner++;
      root--;
    }
    while (free > inner) {
      a[next--] = depth;
      free--;
    }
    free = 2 * inner;
    depth++;
  }
}

/**
 * Lengths of a prefix code, bits, for how often each of the first `n` symbols occurs; 0 where one does not. At least two must
 * occur, each less than 2²² times. Where the optimal tree is deeper than `longest`, leaves that lie deeper are raised and
 * others lowered until the code is complete again.
 */
export function codeLengths(often: Int32Array, n: number, longest: number, lengths: Int32Array): void {
  const keys = new Int32Array(n);
  let used = 0;
  for (let symbol = 0; symbol < n; symbol++) {
    lengths[symbol] = 0;
    if (often[symbol]! === 0) continue;
    const key = (often[symbol]! << 9) | symbol;
    let i = used++;
    for (; i > 0 && keys[i - 1]! > key; i--) keys[i] = keys[i - 1]!;
    keys[i] = key;
  }
  const tree = Int32Array.from(keys.subarray(0, used), (key) => key >> 9);
  depths(tree, used);
  const counts = new Int32Array(longest + 1);
  for (let i = 0; i < used; i++) counts[Math.min(tree[i]!, longest)]!++;
  let total = 0;
  for (let length = 1; length <= longest; length++) total += counts[length]! << (longest - length);
  for (; total > 1 << longest; total--) {
    counts[longest]!--;
    let length = longest - 1;
    while (counts[length] === 0) length--;
    counts[length]!--;
    counts[length + 1]! += 2;
  }
  for (let length = 1, i = used; length <= longest; length++) {
    for (let left = counts[length]!; left > 0; left--) lengths[keys[--i]! & 511] = length;
  }
}

/** The codes that belong to lengths (RFC 1951, section 3.2.2), their bits in the order in which they are written. */
export function codesFor(lengths: Int32Array, n: number, codes: Int32Array): void {
  const next = new Int32Array(LONGEST + 2);
  for (let symbol = 0; symbol < n; symbol++) if (lengths[symbol] !== 0) next[lengths[symbol]! + 1]!++;
  for (let length = 2; length <= LONGEST + 1; length++)
    next[length] = (next[length]! + next[length - 1]!) << 1;
  for (let symbol = 0; symbol < n; symbol++) {
    const length = lengths[symbol]!;
    if (length === 0) continue;
    let code = next[length]!++;
    let turned = 0;
    for (let bit = 0; bit < length; bit++) {
      turned = (turned << 1) | (code & 1);
      code >>= 1;
    }
    codes[symbol] = turned;
  }
}
