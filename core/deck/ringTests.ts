import type { Ring } from '../units/index.ts';

/** Whether a point lies inside the ring, by the even-odd rule. */
export function insideRing(ring: Ring, x: number, y: number): boolean {
  let inside = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [ax, ay] = ring[i] as readonly [number, number];
    const [bx, by] = ring[j] as readonly [number, number];
    if (ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) inside = !inside;
  }
  return inside;
}

/** Distance, in the ring's units, from a point to the nearest of its edges. */
export function distanceToRing(ring: Ring, x: number, y: number): number {
  let least = Infinity;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [ax, ay] = ring[j] as readonly [number, number];
    const [bx, by] = ring[i] as readonly [number, number];
    const [dx, dy] = [bx - ax, by - ay];
    const square = dx * dx + dy * dy;
    const p = square > 0 ? Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / square)) : 0;
    least = Math.min(least, Math.hypot(x - ax - p * dx, y - ay - p * dy));
  }
  return least;
}

/** Where two of the ring's edges cross, or null. Edges by x, so that only neighbours in x are compared. */
export function selfCrossing(ring: Ring): readonly [number, number] | null {
  const n = ring.length;
  const edges = Array.from({ length: n }, (_, i) => {
    const a = ring[i] as readonly [number, number];
    const b = ring[(i + 1) % n] as readonly [number, number];
    return { i, a, b, x0: Math.min(a[0], b[0]), x1: Math.max(a[0], b[0]) };
  }).sort((p, q) => p.x0 - q.x0);
  let active: typeof edges = [];
  for (const edge of edges) {
    active = active.filter((other) => other.x1 >= edge.x0);
    for (const other of active) {
      const gap = Math.abs(other.i - edge.i);
      if (gap === 1 || gap === n - 1) continue;
      const at = crossing(edge.a, edge.b, other.a, other.b);
      if (at) return at;
    }
    active.push(edge);
  }
  return null;
}

type Pair = readonly [number, number];
const side = (a: Pair, b: Pair, p: Pair) => (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);

function crossing(a: Pair, b: Pair, c: Pair, d: Pair): Pair | null {
  const c1 = side(a, b, c);
  const d1 = side(a, b, d);
  if (c1 * d1 >= 0) return null;
  const a1 = side(c, d, a);
  const b1 = side(c, d, b);
  if (a1 * b1 >= 0) return null;
  const p = a1 / (a1 - b1);
  return [a[0] + p * (b[0] - a[0]), a[1] + p * (b[1] - a[1])];
}
