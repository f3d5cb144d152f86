import {
  bareRows,
  type Component,
  getBit,
  intersect,
  type Mask,
  setBit,
  smallPieces,
} from './raster/index.ts';

/** What was too small for the mesh, by ink (−1: a bare hole that was filled). Places in points of the face's raster. */
export interface DroppedSpeck {
  readonly ink: number;
  readonly areaPx: number;
  readonly x: number;
  readonly y: number;
}

/** One ink of a face, and where ink may go. */
export interface ClipInput {
  readonly mask: Mask;
  readonly printable: Mask;
  readonly smallestPx: number;
}

/** A face's clipped separations; `specks` are the pieces that `clipInk` found in each. */
export interface DropInput {
  readonly masks: readonly Mask[];
  readonly printable: Mask;
  readonly smallestPx: number;
  /** By ink: its specks are not dropped. */
  readonly kept: readonly boolean[];
  readonly specks: readonly (readonly Component[])[];
  /** What `bareSpecks` found in all rows. */
  readonly holes: readonly Component[];
}

/** Rows of a face's clipped separations. */
export interface BareInput {
  readonly masks: readonly Mask[];
  readonly printable: Mask;
  readonly smallestPx: number;
  readonly from: number;
  readonly to: number;
}

/** A point of the face as one number; faces are narrower than that. */
const keyOf = (x: number, y: number): number => y * 2 ** 24 + x;

/** Whether a point of the face belongs to what pieces are looked for in. */
type Has = (x: number, y: number) => boolean;

const inkOf =
  (mask: Mask): Has =>
  (x, y) =>
    x >= 0 && y >= 0 && x < mask.width && y < mask.height && getBit(mask, x, y);

/** The points of the 8-connected piece that holds the piece's first; some of them, `most` or more, where it has so many. */
function pointsOf(has: Has, piece: Component, most: number): [number, number][] {
  const seen = new Set<number>();
  const points: [number, number][] = [];
  const stack: [number, number][] = [[piece.x as number, piece.y as number]];
  while (stack.length > 0 && points.length < most) {
    const [x, y] = stack.pop() as [number, number];
    if (!has(x, y) || seen.has(keyOf(x, y))) continue;
    seen.add(keyOf(x, y));
    points.push([x, y]);
    for (let dy = -1; dy <= 1; dy++)
      for (let dx = -1; dx <= 1; dx++) if (dx || dy) stack.push([x + dx, y + dy]);
  }
  return points;
}

/**
 * Specks as they are after others were given to where they lie: larger, several in one, or part of something of `smallestPx` points or more.
 * In reading order of their first points.
 */
function piecesNow(has: Has, specks: readonly Component[], smallestPx: number): Component[] {
  const now = new Map<number, Component>();
  for (const speck of specks) {
    const points = pointsOf(has, speck, smallestPx).sort((a, b) => a[1] - b[1] || a[0] - b[0]);
    const [x, y] = points[0] ?? [speck.x, speck.y];
    now.set(keyOf(x, y), { ...speck, area: points.length, x, y });
  }
  return [...now.values()].sort((a, b) => a.y - b.y || a.x - b.x);
}

/** The ink (−1: bare) that borders the points most. */
function neighbourOf(points: readonly [number, number][], masks: readonly Mask[], own: number): number {
  const votes = new Int32Array(masks.length + 1);
  const inside = new Set(points.map(([x, y]) => keyOf(x, y)));
  const { width, height } = masks[0] as Mask;
  for (const [x, y] of points)
    for (const [dx, dy] of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ] as const) {
      const [nx, ny] = [x + dx, y + dy];
      if (nx < 0 || ny < 0 || nx >= width || ny >= height || inside.has(keyOf(nx, ny))) continue;
      const ink = masks.findIndex((mask, i) => i !== own && getBit(mask, nx, ny));
      votes[ink + 1] = (votes[ink + 1] as number) + 1;
    }
  let best = 0;
  for (let i = 1; i < votes.length; i++) if ((votes[i] as number) > (votes[best] as number)) best = i;
  return best - 1;
}

/**
 * Clips an ink's mask to where ink may go. Returns its pieces smaller than `smallestPx` points, none where that is 1 or less. Changes the
 * mask.
 */
export function clipInk({ mask, printable, smallestPx }: ClipInput): Component[] {
  intersect(mask, printable, mask);
  return smallestPx <= 1 ? [] : smallPieces(mask, smallestPx);
}

/**
 * The bare pieces within where ink may go that are smaller than `smallestPx` points and begin in the rows `from` to before `to`, in reading
 * order: for bands one after the other those of the whole face.
 */
export function bareSpecks({ masks, printable, smallestPx, from, to }: BareInput): Component[] {
  // A piece of fewer points than that has fewer rows, too: it lies whole in the rows that are looked at.
  const reach = Math.ceil(smallestPx);
  const top = Math.max(0, from - reach);
  const bottom = Math.min(printable.height, to + reach);
  const bare = bareRows(printable, masks, top, bottom);
  const found: Component[] = [];
  for (const { area, box, x, y } of smallPieces(bare, smallestPx))
    if (y + top >= from && y + top < to) found.push({ area, box: { ...box, y: box.y + top }, x, y: y + top });
  return found;
}

/**
 * Gives specks and bare holes smaller than `smallestPx` points, which no mesh would hold, to what surrounds them most; inks that are
 * `kept` keep all of theirs. Changes the masks; returns what was dropped.
 */
export function dropFaceSpecks({
  masks,
  printable,
  smallestPx,
  kept,
  specks,
  holes,
}: DropInput): DroppedSpeck[] {
  const dropped: DroppedSpeck[] = [];
  const grown = masks.map(() => false);
  const bared: Component[] = [];
  const give = (own: number, pieces: readonly Component[], has: Has) => {
    for (const piece of pieces) {
      if (piece.area >= smallestPx) continue;
      const points = pointsOf(has, piece, smallestPx);
      const to = neighbourOf(points, masks, own);
      if (own < 0 && to < 0) continue;
      if (to >= 0) grown[to] = true;
      else bared.push(piece);
      for (const [x, y] of points) {
        if (own >= 0) setBit(masks[own] as Mask, x, y, false);
        if (to >= 0) setBit(masks[to] as Mask, x, y, true);
      }
      dropped.push({ ink: own, areaPx: piece.area, x: piece.x as number, y: piece.y as number });
    }
  };
  masks.forEach((mask, i) => {
    const own = specks[i] ?? [];
    const has = inkOf(mask);
    if (!kept[i]) give(i, grown[i] ? piecesNow(has, own, smallestPx) : own, has);
  });
  const may = inkOf(printable);
  const bare: Has = (x, y) => may(x, y) && !masks.some((mask) => getBit(mask, x, y));
  // What went to bare may have joined holes, or made one.
  give(-1, bared.length > 0 ? piecesNow(bare, [...holes, ...bared], smallestPx) : holes, bare);
  return dropped;
}

/** `clipInk` for each of the separations, `bareSpecks`, then `dropFaceSpecks`. */
export function finishFace(
  masks: readonly Mask[],
  printable: Mask,
  smallestPx: number,
  kept: readonly boolean[] = [],
): DroppedSpeck[] {
  const specks = masks.map((mask, i) => clipInk({ mask, printable, smallestPx: kept[i] ? 0 : smallestPx }));
  if (smallestPx <= 1 || masks.length === 0) return [];
  const holes = bareSpecks({ masks, printable, smallestPx, from: 0, to: printable.height });
  return dropFaceSpecks({ masks, printable, smallestPx, kept, specks, holes });
}
