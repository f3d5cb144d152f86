// The nodes of a tile's grid: where its points land in the art, f32 pairs, rows of `cols`.

/** Whether all of `count` numbers are numbers, none farther from 0 than `farthest`. */
export function nodesWithin(nodes: usize, count: i32, farthest: f32): bool {
  for (let i = 0; i < count; i++) if (!(abs(load<f32>(nodes + (<usize>i << 2))) <= farthest)) return false;
  return true;
}

/** The box of those in columns `left` to `right` of rows `top` to `bottom`: least x and y, then most, four f32 to `out`. */
export function nodesBox(
  nodes: usize,
  cols: i32,
  left: i32,
  right: i32,
  top: i32,
  bottom: i32,
  out: usize,
): void {
  let x0: f32 = Infinity;
  let y0: f32 = Infinity;
  let x1: f32 = -Infinity;
  let y1: f32 = -Infinity;
  for (let r = top; r <= bottom; r++) {
    let at = nodes + (<usize>(r * cols + left) << 3);
    for (let c = left; c <= right; c++, at += 8) {
      const x = load<f32>(at);
      const y = load<f32>(at, 4);
      x0 = min(x0, x);
      x1 = max(x1, x);
      y0 = min(y0, y);
      y1 = max(y1, y);
    }
  }
  store<f32>(out, x0);
  store<f32>(out, y0, 4);
  store<f32>(out, x1, 8);
  store<f32>(out, y1, 12);
}
