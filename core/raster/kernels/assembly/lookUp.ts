// Passes over pictures of one word a point: the fast twins of ../lookUpPlain.ts.

/** Bytes written at once beyond what is asked for, at most: whoever calls leaves as much room behind the output. */
// @ts-ignore: decorator
@inline
const OVER = 16;

/** Writes `answer` for `word` at place `i` and for all that equal it up to the next that does not; returns that one's place. */
// @ts-ignore: decorator
@inline
export function answerRun(
  input: usize,
  i: i32,
  count: i32,
  word: i32,
  answer: u8,
  output: usize,
): i32 {
  let end = i + 1;
  const four = i32x4.splat(word);
  while (end + 4 <= count && i32x4.all_true(i32x4.eq(v128.load(input + (<usize>end << 2)), four))) end += 4;
  while (end < count && load<i32>(input + (<usize>end << 2)) == word) end++;
  if (end - i < 4) {
    for (let k = i; k < end; k++) store<u8>(output + <usize>k, answer);
  } else {
    const all = i8x16.splat(answer);
    for (let k = i; k < end; k += OVER) v128.store(output + <usize>k, all);
  }
  return end;
}

/**
 * The byte of every word from place `from` to before `count`. `keys` holds 65,536 words and `held` the byte of each; a word stands
 * in the slot that the upper half of its product with 0x9e3779b1 names. Returns `count`, or the place of the first word
 * that stands not there: then all before it are done. Stretches of one word are answered as one.
 */
export function lookUpWords(
  input: usize,
  from: i32,
  count: i32,
  keys: usize,
  held: usize,
  output: usize,
): i32 {
  let i = from;
  while (i < count) {
    const word = load<i32>(input + (<usize>i << 2));
    const slot = <usize>(<u32>(word * <i32>0x9e3779b1) >>> 16);
    if (load<i32>(keys + (slot << 2)) != word) return i;
    const answer = load<u8>(held + slot);
    i = answerRun(input, i, count, word, answer, output);
  }
  return count;
}

// @ts-ignore: decorator
@inline
function differing(p: usize, q: usize): u32 {
  return <u32>(15 ^ i32x4.bitmask(i32x4.eq(v128.load(p), v128.load(q))));
}

/**
 * Where each of `rows` rows of `width` words differs from the word to its right (`right`) and from the one in the row
 * below (`below`), which follows them: one bit a word, lowest first, rows of `outPitch` bytes. The last column has nothing to
 * its right. The input must be readable 128 bytes beyond its end.
 */
export function differRows(
  input: usize,
  width: i32,
  rows: i32,
  right: usize,
  below: usize,
  outPitch: usize,
): void {
  const pitch = <usize>width << 2;
  for (let y = 0; y < rows; y++) {
    const row = input + <usize>y * pitch;
    const out = <usize>y * outPitch;
    for (let x = 0; x < width; x += 32) {
      const p = row + (<usize>x << 2);
      let h: u32 = 0;
      let v: u32 = 0;
      for (let k = 0; k < 8; k++) {
        const at = p + (<usize>k << 4);
        h |= differing(at, at + 4) << (k << 2);
        v |= differing(at, at + pitch) << (k << 2);
      }
      const left = width - x;
      if (left <= 32) {
        h &= (1 << (left - 1)) - 1;
        if (left < 32) v &= (1 << left) - 1;
      }
      store<u32>(right + out + <usize>(x >> 3), h);
      store<u32>(below + out + <usize>(x >> 3), v);
    }
  }
}
