import { ramerDouglasPeuckerD } from 'clipper2-ts';

type Point = readonly [number, number];

/** Beyond this a hand has drawn more than any eye sees: the tolerance is doubled until so few points are left. */
const MOST_DOUBLINGS = 40;

/**
 * The stroke without the points that lie within `tolerance` of the line without them; coarser until no more than `most` are left.
 * Units as given.
 */
export function thinStroke(points: readonly Point[], tolerance: number, most: number): Point[] {
  const path = points.map(([x, y]) => ({ x, y }));
  let thin = path;
  for (let i = 0, t = tolerance; i < MOST_DOUBLINGS; i++, t *= 2) {
    thin = ramerDouglasPeuckerD(path, t);
    if (thin.length <= most) break;
  }
  return thin.map(({ x, y }) => [x, y]);
}
