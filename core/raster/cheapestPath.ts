/** A way down a band: the column it takes in each row, and what it costs. */
export interface CheapestPath {
  /** Column of the path in each row, top to bottom; neighbours differ by at most 1. */
  readonly columns: Int32Array;
  /** Sum of the costs of its points plus its turns. */
  readonly cost: number;
}

/**
 * The cheapest way from the top row to the bottom row of a band: one point in each row, each below or diagonally below the
 * one before (8-connected), so that it is never steeper than 45°. Pays the cost of every point it visits, and `turnCost` for
 * each eighth turn between one step and the next (twice that from one diagonal to the other). Among equals it keeps to the
 * smaller column, seen from the bottom. Dynamic programming over column and last step; exact while the sums stay below 2³¹.
 *
 * `cost` holds width × height values, rows from the top. Throws when the band is empty.
 */
export function cheapestPath(
  cost: Uint8Array | Uint16Array,
  width: number,
  height: number,
  turnCost = 0,
): CheapestPath {
  if (width < 1 || height < 1 || cost.length < width * height)
    throw new RangeError(`A band of ${width} × ${height} points needs that many costs, not ${cost.length}.`);
  // Far, but with room to add to it.
  const far = 0x3fffffff;
  // Least cost of arriving at a column by a step of −1, 0 or +1 columns; a guard column on either side.
  const line = () => new Int32Array(width + 2).fill(far);
  let [left, down, right] = [line(), line(), line()];
  let [nextLeft, nextDown, nextRight] = [line(), line(), line()];
  // Two bits for each of the three: the step (0, 1, 2) by which the point above was reached.
  const came = new Uint8Array(width * height);
  const twice = 2 * turnCost;
  for (let x = 0; x < width; x++) left[x + 1] = down[x + 1] = right[x + 1] = cost[x]!;
  for (let y = 1; y < height; y++) {
    const row = y * width;
    for (let x = 0; x < width; x++) {
      const here = cost[row + x]!;
      // Above to the right, straight above, above to the left: x + 2, x + 1 and x of the guarded lines.
      let best = left[x + 2]!;
      let steps = 0;
      let other = down[x + 2]! + turnCost;
      if (other < best) [best, steps] = [other, 1];
      other = right[x + 2]! + twice;
      if (other < best) [best, steps] = [other, 2];
      nextLeft[x + 1] = best >= far ? far : best + here;

      best = left[x + 1]! + turnCost;
      let by = 0;
      if (down[x + 1]! < best) [best, by] = [down[x + 1]!, 1];
      other = right[x + 1]! + turnCost;
      if (other < best) [best, by] = [other, 2];
      nextDown[x + 1] = best >= far ? far : best + here;
      steps |= by << 2;

      best = left[x]! + twice;
      by = 0;
      other = down[x]! + turnCost;
      if (other < best) [best, by] = [other, 1];
      if (right[x]! < best) [best, by] = [right[x]!, 2];
      nextRight[x + 1] = best >= far ? far : best + here;
      came[row + x] = steps | (by << 4);
    }
    [left, nextLeft] = [nextLeft, left];
    [down, nextDown] = [nextDown, down];
    [right, nextRight] = [nextRight, right];
  }
  let best = far + 1;
  let column = 0;
  let step = 1;
  for (let x = 0; x < width; x++)
    for (const [s, arrived] of [left, down, right].entries())
      if (arrived[x + 1]! < best) {
        best = arrived[x + 1]!;
        column = x;
        step = s;
      }
  const columns = new Int32Array(height);
  for (let y = height - 1; y >= 0; y--) {
    columns[y] = column;
    const last = (came[y * width + column]! >>> (2 * step)) & 3;
    column -= step - 1;
    step = last;
  }
  return { columns, cost: best };
}
