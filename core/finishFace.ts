import {
  blankMask,
  type Component,
  components,
  getBit,
  intersect,
  type Mask,
  setBit,
  subtract,
  union,
} from './raster/index.ts';

/** What was too small for the mesh, by ink (−1: a bare hole that was filled). Places in points of the face's raster. */
export interface DroppedSpeck {
  readonly ink: number;
  readonly areaPx: number;
  readonly x: number;
  readonly y: number;
}

/** The points of the 8-connected piece of `mask` that holds (x, y). */
function pointsOf(mask: Mask, piece: Component): [number, number][] {
  const seen = new Set<number>();
  const points: [number, number][] = [];
  const stack: [number, number][] = [[piece.x as number, piece.y as number]];
  const width = mask.width as number;
  while (stack.length > 0) {
    const [x, y] = stack.pop() as [number, number];
    if (x < 0 || y < 0 || x >= width || y >= (mask.height as number)) continue;
    const key = y * width + x;
    if (seen.has(key) || !getBit(mask, x, y)) continue;
    seen.add(key);
    points.push([x, y]);
    for (let dy = -1; dy <= 1; dy++)
      for (let dx = -1; dx <= 1; dx++) if (dx || dy) stack.push([x + dx, y + dy]);
  }
  return points;
}

/** The ink (−1: bare) that borders the points most. */
function neighbourOf(points: readonly [number, number][], masks: readonly Mask[], own: number): number {
  const votes = new Int32Array(masks.length + 1);
  const inside = new Set(points.map(([x, y]) => `${x},${y}`));
  const { width, height } = masks[0] as Mask;
  for (const [x, y] of points)
    for (const [dx, dy] of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ] as const) {
      const [nx, ny] = [x + dx, y + dy];
      if (nx < 0 || ny < 0 || nx >= width || ny >= height || inside.has(`${nx},${ny}`)) continue;
      const ink = masks.findIndex((mask, i) => i !== own && getBit(mask, nx, ny));
      votes[ink + 1] = (votes[ink + 1] as number) + 1;
    }
  let best = 0;
  for (let i = 1; i < votes.length; i++) if ((votes[i] as number) > (votes[best] as number)) best = i;
  return best - 1;
}

/**
 * Clips the separations to where ink may go, and gives specks and bare holes smaller than `smallestPx` points, which no
 * mesh would hold, to what surrounds them most; inks that are `kept` keep all of theirs. Changes the masks; returns what was
 * dropped.
 */
export function finishFace(
  masks: readonly Mask[],
  printable: Mask,
  smallestPx: number,
  kept: readonly boolean[] = [],
): DroppedSpeck[] {
  for (const mask of masks) intersect(mask, printable, mask);
  const dropped: DroppedSpeck[] = [];
  if (smallestPx <= 1 || masks.length === 0) return dropped;
  const give = (from: Mask | null, own: number, all: Mask) => {
    for (const piece of components(all)) {
      if (piece.area >= smallestPx) continue;
      const points = pointsOf(all, piece);
      const to = neighbourOf(points, masks, own);
      if (own < 0 && to < 0) continue;
      for (const [x, y] of points) {
        if (from) setBit(from, x, y, false);
        if (to >= 0) setBit(masks[to] as Mask, x, y, true);
      }
      dropped.push({ ink: own, areaPx: piece.area, x: piece.x as number, y: piece.y as number });
    }
  };
  masks.forEach((mask, i) => {
    if (!kept[i]) give(mask, i, mask);
  });
  const first = masks[0] as Mask;
  const bare = blankMask(first.width, first.height);
  for (const mask of masks) union(bare, mask, bare);
  subtract(printable, bare, bare);
  give(null, -1, bare);
  return dropped;
}
