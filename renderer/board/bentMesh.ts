import { type Deck, type Face, makeSurface, outlineOnSurface } from '../../core/deck/index.ts';
import type { Box, Ring } from '../../core/units/index.ts';

/** Triangles of the bent board: mm, x to the nose, y as the top face is seen, z to the rider. */
export interface BentMesh {
  readonly positions: Float32Array;
  /** Place in the face's picture, 0 to 1, from the lower left. */
  readonly uvs: Float32Array;
  readonly indices: Uint32Array;
}

const COLUMNS = 220;
const ROWS = 28;

/** The lowest and highest t of a ring at s. */
function spanAt(ring: Ring, s: number): readonly [number, number] {
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < ring.length; i++) {
    const [x0, y0] = ring[i]!;
    const [x1, y1] = ring[(i + 1) % ring.length]!;
    if (x0 > s === x1 > s) continue;
    const t = y0 + ((s - x0) / (x1 - x0)) * (y1 - y0);
    low = Math.min(low, t);
    high = Math.max(high, t);
  }
  return low <= high ? [low, high] : [0, 0];
}

/** One face's surface as the wood bends it, and the points of its rim, tail to nose and back. */
export function bentFace(
  deck: Deck,
  face: Face,
  picture: Box,
): { readonly mesh: BentMesh; readonly rim: readonly [number, number, number][] } {
  const surface = makeSurface(deck, face);
  const ring = outlineOnSurface(deck, face, 0.1);
  const xs = ring.map((p) => p[0]);
  const from = Math.min(...xs) + 1e-3;
  const to = Math.max(...xs) - 1e-3;
  const side = face === 'top' ? 1 : -1;
  const lift = face === 'top' ? 0 : -deck.thickness;
  const positions = new Float32Array((COLUMNS + 1) * (ROWS + 1) * 3);
  const uvs = new Float32Array((COLUMNS + 1) * (ROWS + 1) * 2);
  const low: [number, number, number][] = [];
  const high: [number, number, number][] = [];
  for (let c = 0; c <= COLUMNS; c++) {
    // Columns crowd towards the round ends, where the outline turns quickly.
    const s = from + ((1 - Math.cos((c / COLUMNS) * Math.PI)) / 2) * (to - from);
    const [t0, t1] = spanAt(ring, s);
    for (let r = 0; r <= ROWS; r++) {
      const t = t0 + (r / ROWS) * (t1 - t0);
      const p = surface.toSpace({ s, t });
      const at = c * (ROWS + 1) + r;
      const place: [number, number, number] = [p.x, side * p.y, p.z + lift];
      positions.set(place, at * 3);
      uvs.set([(s - picture.x) / picture.width, (t - picture.y) / picture.height], at * 2);
      if (r === 0) (side > 0 ? low : high).push(place);
      if (r === ROWS) (side > 0 ? high : low).push(place);
    }
  }
  const indices = new Uint32Array(COLUMNS * ROWS * 6);
  let n = 0;
  for (let c = 0; c < COLUMNS; c++)
    for (let r = 0; r < ROWS; r++) {
      const a = c * (ROWS + 1) + r;
      const b = a + ROWS + 1;
      // Counter-clockwise as seen from the face's own side.
      indices.set([a, b, a + 1, a + 1, b, b + 1], n);
      n += 6;
    }
  return { mesh: { positions, uvs, indices }, rim: [...low, ...high.reverse()] };
}

/** The edge of the wood between the two faces' rims; v runs from the bottom face to the top. */
export function bentRim(
  bottom: readonly [number, number, number][],
  top: readonly [number, number, number][],
): BentMesh {
  const n = top.length;
  const positions = new Float32Array((n + 1) * 6);
  const uvs = new Float32Array((n + 1) * 4);
  const indices = new Uint32Array(n * 6);
  for (let i = 0; i <= n; i++) {
    positions.set([...bottom[i % n]!, ...top[i % n]!], i * 6);
    uvs.set([i / n, 0, i / n, 1], i * 4);
    if (i < n) indices.set([i * 2, i * 2 + 2, i * 2 + 1, i * 2 + 1, i * 2 + 2, i * 2 + 3], i * 6);
  }
  return { positions, uvs, indices };
}
