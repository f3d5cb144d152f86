// Whether a picture of cells is blank from end to end: the fast twin of ../blankWayPlain.ts.

/**
 * 1 where cells without `inked` lead from the first of `rows` rows of `columns` codes to the last, each beside the one before or next to that.
 * `come` and `next` hold columns + 32 bytes each; the codes must be readable 16 bytes beyond their end.
 */
export function blankWay(
  codes: usize,
  columns: i32,
  rows: i32,
  inked: i32,
  come: usize,
  next: usize,
): i32 {
  const bit = i8x16.splat(<i8>inked);
  const none = i8x16.splat(0);
  const length = <usize>columns;
  memory.fill(come, 0, length + 32);
  memory.fill(come + 1, 1, length);
  memory.fill(next, 0, length + 32);
  for (let p = 0; p < rows; p++) {
    for (let q: usize = 0; q < length; q += 16) {
      const near = v128.or(
        v128.or(v128.load(come + q), v128.load(come + q + 1)),
        v128.load(come + q + 2),
      );
      const blank = i8x16.eq(v128.and(v128.load(codes + q), bit), none);
      v128.store(next + q + 1, v128.and(near, blank));
    }
    v128.store(next + length + 1, none);
    let any = none;
    for (let q: usize = 0; q < length; q += 16) any = v128.or(any, v128.load(next + q + 1));
    if (!v128.any_true(any)) return 0;
    const was = come;
    come = next;
    next = was;
    codes += length;
  }
  return 1;
}
