// Prefix codes for deflate: the fast twin of ../huffmanPlain.ts, whose comments state the schemes. Lists hold 32-bit numbers.

import { at, more, put } from './lists';

function depths(a: usize, n: i32): void {
  more(a, 0, at(a, 1));
  let root = 0;
  let leaf = 2;
  for (let next = 1; next < n - 1; next++) {
    if (leaf >= n || at(a, root) < at(a, leaf)) {
      put(a, next, at(a, root));
      put(a, root++, next);
    } else put(a, next, at(a, leaf++));
    if (leaf >= n || (root < next && at(a, root) < at(a, leaf))) {
      more(a, next, at(a, root));
      put(a, root++, next);
    } else more(a, next, at(a, leaf++));
  }
  put(a, n - 2, 0);
  for (let next = n - 3; next >= 0; next--) put(a, next, at(a, at(a, next)) + 1);
  let free = 1;
  let depth = 0;
  let next = n - 1;
  root = n - 2;
  while (free > 0) {
    let inner = 0;
    while (root >= 0 && at(a, root) == depth) {
      inner++;
      root--;
    }
    while (free > inner) {
      put(a, next--, depth);
      free--;
    }
    free = 2 * inner;
    depth++;
  }
}

/** `keys` and `tree` have room for `n` numbers, `counts` for `longest` + 1. */
export function codeLengths(
  often: usize,
  n: i32,
  longest: i32,
  lengths: usize,
  keys: usize,
  tree: usize,
  counts: usize,
): void {
  let used = 0;
  for (let symbol = 0; symbol < n; symbol++) {
    put(lengths, symbol, 0);
    if (at(often, symbol) == 0) continue;
    const key = (at(often, symbol) << 9) | symbol;
    let i = used++;
    for (; i > 0 && at(keys, i - 1) > key; i--) put(keys, i, at(keys, i - 1));
    put(keys, i, key);
  }
  for (let i = 0; i < used; i++) put(tree, i, at(keys, i) >> 9);
  depths(tree, used);
  memory.fill(counts, 0, <usize>(longest + 1) << 2);
  for (let i = 0; i < used; i++) more(counts, min(at(tree, i), longest), 1);
  let total = 0;
  for (let length = 1; length <= longest; length++) total += at(counts, length) << (longest - length);
  for (; total > 1 << longest; total--) {
    more(counts, longest, -1);
    let length = longest - 1;
    while (at(counts, length) == 0) length--;
    more(counts, length, -1);
    more(counts, length + 1, 2);
  }
  for (let length = 1, i = used; length <= longest; length++) {
    for (let left = at(counts, length); left > 0; left--) put(lengths, at(keys, --i) & 511, length);
  }
}

/** `next` has room for 17 numbers. */
export function codesFor(lengths: usize, n: i32, codes: usize, next: usize): void {
  memory.fill(next, 0, 17 << 2);
  for (let symbol = 0; symbol < n; symbol++) {
    if (at(lengths, symbol) != 0) more(next, at(lengths, symbol) + 1, 1);
  }
  for (let length = 2; length <= 16; length++) put(next, length, (at(next, length) + at(next, length - 1)) << 1);
  for (let symbol = 0; symbol < n; symbol++) {
    const length = at(lengths, symbol);
    if (length == 0) continue;
    let code = at(next, length);
    put(next, length, code + 1);
    let turned = 0;
    for (let bit = 0; bit < length; bit++) {
      turned = (turned << 1) | (code & 1);
      code >>= 1;
    }
    put(codes, symbol, turned);
  }
}
