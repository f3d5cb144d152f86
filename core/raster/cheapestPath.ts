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
  // Least cost of arriving at a column by a step of −1, 0, +1 columns; a guard column on either side.
  const span = width + 2;
  let before = [
    new Int32Array(span).fill(far),
    new Int32Array(span).fill(far),
    new Int32Array(span).fill(far),
  ];
  let now = before.map((line) => line.slice());
  // Two bits a step: the step by which the row above was reached.
  const came = new Uint8Array(width * height);
  for (let x = 0; x < width; x++) for (const line of before) line[x + 1] = cost[x]!;
  for (let y = 1; y < height; y++) {
    const [left, down, right] = before as [Int32Array, Int32Array, Int32Array];
    const row = y * width;
    for (let x = 0; x < width; x++) {
      const here = cost[row + x]!;
      let steps = 0;
      for (let step = 0; step < 3; step++) {
        // A step of +1 column comes from column x − 1, which is x of the guarded line.
        const from = x + 2 - step;
        const l = left[from]! + (step === 0 ? 0 : step === 1 ? turnCost : 2 * turnCost);
        const d = down[from]! + (step === 1 ? 0 : turnCost);
        const r = right[from]! + (step === 2 ? 0 : step === 1 ? turnCost : 2 * turnCost);
        let best = l;
        let by = 0;
        if (d < best) {
          best = d;
          by = 1;
        }
        if (r < best) {
          best = r;
          by = 2;
        }
        now[step]![x + 1] = best >= far ? far : best + here;
        steps |= by << (2 * step);
      }
      came[row + x] = steps;
    }
    [before, now] = [now, before];
  }
  let best = far + 1;
  let column = 0;
  let step = 1;
  for (let x = 0; x < width; x++)
    for (let s = 0; s < 3; s++)
      if (before[s]![x + 1]! < best) {
        best = before[s]![x + 1]!;
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
