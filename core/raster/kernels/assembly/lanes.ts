// One step of the cheapest walk down a band: the fast twin of ../lanesPlain.ts, whose comment states the scheme.

/** 1 in `flat` for each of `rows` rows whose values are all of one kind. */
export function flatRows(codes: usize, columns: i32, rows: i32, flat: usize): void {
  const wide = <usize>columns;
  for (let p = 0; p < rows; p++) {
    const row = codes + <usize>p * wide;
    const value = load<u8>(row);
    const eight = <u64>value * 0x0101010101010101;
    let q: usize = 0;
    while (q + 8 <= wide && load<u64>(row + q) == eight) q += 8;
    while (q < wide && load<u8>(row + q) == value) q++;
    store<u8>(flat + <usize>p, q == wide ? 1 : 0);
  }
}

// @ts-ignore: decorator
@inline
function fill(list: usize, from: i32, to: i32, value: f64): void {
  for (let i = from; i < to; i++) store<f64>(list + (<usize>i << 3), value);
}

/** Where look `k` of a step lies, from the first lane's place in the band's first row. */
// @ts-ignore: decorator
@inline
function lookAt(places: usize, asides: usize, columns: i32, k: i32): usize {
  const at = <usize>k << 2;
  return <usize>(load<i32>(places + at) * columns + load<i32>(asides + at));
}

/** What a step costs from every lane by every slope, into `edge`: see the plain twin's `edgeCosts`. */
export function laneEdges(
  codes: usize,
  flat: usize,
  columns: i32,
  lanes: i32,
  laneCells: i32,
  firstCell: i32,
  places: usize,
  offsets: usize,
  samples: i32,
  steepest: i32,
  prices: usize,
  kinds: i32,
  edge: usize,
): void {
  const slopes = 2 * steepest + 1;
  let alike = true;
  for (let k = 0; k < samples; k++)
    if (load<u8>(flat + <usize>load<i32>(places + (<usize>k << 2))) == 0) alike = false;
  for (let s = 0; s < slopes; s++) {
    const begin = max(0, steepest - s);
    const from = s * lanes + begin;
    const to = s * lanes + min(lanes, lanes + steepest - s);
    const own = prices + (<usize>(s * kinds) << 3);
    if (alike) {
      let sum: f64 = 0;
      for (let k = 0; k < samples; k++) {
        const code = load<u8>(codes + <usize>(load<i32>(places + (<usize>k << 2)) * columns));
        sum += load<f64>(own + (<usize>code << 3));
      }
      fill(edge, from, to, sum);
      continue;
    }
    fill(edge, from, to, 0);
    const offset = codes + <usize>(begin * laneCells + firstCell);
    const asides = offsets + (<usize>(s * samples) << 2);
    let k = 0;
    // Four looks at a time, added one after the other as the plain twin does.
    for (; k + 4 <= samples; k += 4) {
      let a = offset + lookAt(places, asides, columns, k);
      let b = offset + lookAt(places, asides, columns, k + 1);
      let c = offset + lookAt(places, asides, columns, k + 2);
      let d = offset + lookAt(places, asides, columns, k + 3);
      for (let l = from; l < to; l++) {
        const p = edge + (<usize>l << 3);
        let sum = load<f64>(p) + load<f64>(own + (<usize>load<u8>(a) << 3));
        sum += load<f64>(own + (<usize>load<u8>(b) << 3));
        sum += load<f64>(own + (<usize>load<u8>(c) << 3));
        sum += load<f64>(own + (<usize>load<u8>(d) << 3));
        store<f64>(p, sum);
        a += <usize>laneCells;
        b += <usize>laneCells;
        c += <usize>laneCells;
        d += <usize>laneCells;
      }
    }
    for (; k < samples; k++) {
      let at = offset + lookAt(places, asides, columns, k);
      for (let l = from; l < to; l++, at += <usize>laneCells) {
        const p = edge + (<usize>l << 3);
        store<f64>(p, load<f64>(p) + load<f64>(own + (<usize>load<u8>(at) << 3)));
      }
    }
  }
}

/** The cheapest way to every slope and lane after the step, from `best` to `next`, and the slopes before in `came`. */
export function laneStep(
  lanes: i32,
  steepest: i32,
  sharpest: i32,
  turn: f64,
  edge: usize,
  best: usize,
  next: usize,
  came: usize,
): void {
  const slopes = 2 * steepest + 1;
  fill(next, 0, lanes * slopes, Infinity);
  for (let s = 0; s < slopes; s++) {
    const low = max(0, steepest - s);
    const high = min(lanes, lanes + steepest - s);
    const land = s * lanes + s - steepest;
    const first = max(0, s - sharpest);
    const last = min(slopes - 1, s + sharpest);
    let l = low;
    // Two lanes at a time.
    for (; l + 2 <= high; l += 2) {
      let least = f64x2.splat(Infinity);
      let by = i64x2.splat(0);
      for (let before = first; before <= last; before++) {
        const at = best + (<usize>(before * lanes + l) << 3);
        const price = f64x2.add(v128.load(at), f64x2.splat(turn * <f64>abs(before - s)));
        const better = f64x2.lt(price, least);
        least = v128.bitselect(price, least, better);
        by = v128.bitselect(i64x2.splat(before), by, better);
      }
      store<u8>(came + <usize>(land + l), <u8>i64x2.extract_lane(by, 0));
      store<u8>(came + <usize>(land + l + 1), <u8>i64x2.extract_lane(by, 1));
      v128.store(
        next + (<usize>(land + l) << 3),
        f64x2.add(least, v128.load(edge + (<usize>(s * lanes + l) << 3))),
      );
    }
    for (; l < high; l++) {
      let least: f64 = Infinity;
      let by = 0;
      for (let before = first; before <= last; before++) {
        const price =
          load<f64>(best + (<usize>(before * lanes + l) << 3)) + turn * <f64>abs(before - s);
        if (price < least) {
          least = price;
          by = before;
        }
      }
      store<u8>(came + <usize>(land + l), <u8>by);
      store<f64>(
        next + (<usize>(land + l) << 3),
        least + load<f64>(edge + (<usize>(s * lanes + l) << 3)),
      );
    }
  }
}
