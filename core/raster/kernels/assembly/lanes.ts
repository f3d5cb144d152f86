// One step of the cheapest walk down a band: the fast twin of ../lanesPlain.ts, whose comment states the scheme.

/** 1 in `flat` for each of `rows` rows whose values cost the same and have no edge that faces any way. */
export function flatRows(cost: usize, facing: usize, columns: i32, rows: i32, flat: usize): void {
  for (let p = 0; p < rows; p++) {
    const at = <usize>(p * columns);
    const value = load<f32>(cost + (at << 2));
    let q: usize = 0;
    while (
      q < <usize>columns &&
      load<f32>(cost + ((at + q) << 2)) == value &&
      load<u8>(facing + at + q) == 0
    )
      q++;
    store<u8>(flat + <usize>p, q == <usize>columns ? 1 : 0);
  }
}

// @ts-ignore: decorator
@inline
function fill(list: usize, from: i32, to: i32, value: f64): void {
  for (let i = from; i < to; i++) store<f64>(list + (<usize>i << 3), value);
}

/** What a step costs from every lane by every slope, into `edge`: see the plain twin's `edgeCosts`. */
export function laneEdges(
  cost: usize,
  facing: usize,
  flat: usize,
  columns: i32,
  lanes: i32,
  laneCells: i32,
  firstCell: i32,
  places: usize,
  offsets: usize,
  samples: i32,
  steepest: i32,
  weights: usize,
  aslant: usize,
  facings: i32,
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
    const weight = load<f64>(weights + (<usize>s << 3));
    if (alike) {
      let sum: f64 = 0;
      for (let k = 0; k < samples; k++) {
        const at = load<i32>(places + (<usize>k << 2)) * columns;
        sum += <f64>load<f32>(cost + (<usize>at << 2)) * weight;
      }
      fill(edge, from, to, sum);
      continue;
    }
    fill(edge, from, to, 0);
    const factors = aslant + (<usize>(s * (facings + 1)) << 3);
    for (let k = 0; k < samples; k++) {
      let at =
        load<i32>(places + (<usize>k << 2)) * columns +
        load<i32>(offsets + (<usize>(s * samples + k) << 2)) +
        begin * laneCells +
        firstCell;
      for (let l = from; l < to; l++, at += laneCells) {
        const p = edge + (<usize>l << 3);
        const factor = load<f64>(factors + (<usize>load<u8>(facing + <usize>at) << 3));
        store<f64>(p, load<f64>(p) + <f64>load<f32>(cost + (<usize>at << 2)) * factor * weight);
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
  least: usize,
  came: usize,
): void {
  const slopes = 2 * steepest + 1;
  fill(next, 0, lanes * slopes, Infinity);
  for (let s = 0; s < slopes; s++) {
    fill(least, 0, lanes, Infinity);
    const low = max(0, steepest - s);
    const high = min(lanes, lanes + steepest - s);
    const land = s * lanes + s - steepest;
    const last = min(slopes - 1, s + sharpest);
    for (let before = max(0, s - sharpest); before <= last; before++) {
      const turning = turn * <f64>abs(before - s);
      const row = best + (<usize>(before * lanes) << 3);
      for (let l = low; l < high; l++) {
        const price = load<f64>(row + (<usize>l << 3)) + turning;
        const at = least + (<usize>l << 3);
        if (price >= load<f64>(at)) continue;
        store<f64>(at, price);
        store<u8>(came + <usize>(land + l), <u8>before);
      }
    }
    for (let l = low; l < high; l++)
      store<f64>(
        next + (<usize>(land + l) << 3),
        load<f64>(least + (<usize>l << 3)) + load<f64>(edge + (<usize>(s * lanes + l) << 3)),
      );
  }
}
