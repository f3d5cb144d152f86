// A window of packed rows: the fast twin of ../../window.ts's `crop`.

/** From `rows` rows of `pitch` bytes the `bytes` bytes at `input` each, to rows of `outPitch` bytes. */
export function gatherRows(
  input: usize,
  pitch: i32,
  rows: i32,
  bytes: i32,
  output: usize,
  outPitch: i32,
): void {
  for (let y = 0; y < rows; y++)
    memory.copy(output + <usize>y * outPitch, input + <usize>y * pitch, bytes);
}

/**
 * `rows` rows of `words` words from rows of `pitch` bytes whose first wanted bit is bit `shift` of the word at `input`; the last is cut
 * to `tail`. The input must be readable 20 bytes beyond the words wanted, the output writable 16 bytes beyond its end; it has rows of `outPitch` bytes, a
 * multiple of 16, whose other words become 0.
 */
export function cropRows(
  input: usize,
  pitch: usize,
  rows: i32,
  shift: i32,
  words: i32,
  tail: i32,
  output: usize,
  outPitch: usize,
): void {
  const bytes = <usize>words << 2;
  for (let y = 0; y < rows; y++) {
    const from = input + <usize>y * pitch;
    const to = output + <usize>y * outPitch;
    if (shift == 0) memory.copy(to, from, bytes);
    else
      for (let i: usize = 0; i < bytes; i += 16)
        v128.store(
          to + i,
          v128.or(
            i32x4.shr_u(v128.load(from + i), shift),
            i32x4.shl(v128.load(from + i + 4), 32 - shift),
          ),
        );
    const last = to + bytes - 4;
    store<i32>(last, load<i32>(last) & tail);
    for (let p = last + 4; p < to + outPitch; p += 4) store<i32>(p, 0);
  }
}
