import type { Ring } from '../units/index.ts';
import type { Mask } from './mask.ts';

/** Sets bits `from` (included) to `to` (excluded) of the row that starts at word `base`. */
function fillSpan(data: Uint32Array, base: number, from: number, to: number): void {
  const first = from >>> 5;
  const last = (to - 1) >>> 5;
  const headBits = (0xffffffff << (from & 31)) >>> 0;
  const tailBits = 0xffffffff >>> (31 - ((to - 1) & 31));
  if (first === last) {
    data[base + first] = (data[base + first] as number) | (headBits & tailBits);
    return;
  }
  data[base + first] = (data[base + first] as number) | headBits;
  data.fill(0xffffffff, base + first + 1, base + last);
  data[base + last] = (data[base + last] as number) | tailBits;
}

/**
 * Adds to `mask` every point whose centre lies inside the rings by the even-odd rule. Rings are in pixels of the mask:
 * x to the right, y down, the centre of point (c, r) at (c + 0.5, r + 0.5). Parts beyond the mask are cut off.
 */
export function fillRings(mask: Mask, rings: readonly Ring[]): Mask {
  const { width, height, stride, data } = mask as {
    width: number;
    height: number;
    stride: number;
    data: Uint32Array;
  };
  // Edges by the first row whose centre they cross, so that each row only looks at the edges it meets.
  const starts: number[][] = Array.from({ length: height }, () => []);
  const edges: { x: number; slope: number; end: number }[] = [];
  for (const ring of rings)
    for (let i = 0; i < ring.length; i++) {
      const a = ring[i] as readonly [number, number];
      const b = ring[(i + 1) % ring.length] as readonly [number, number];
      if (a[1] === b[1]) continue;
      const [upper, lower] = a[1] < b[1] ? [a, b] : [b, a];
      const slope = (lower[0] - upper[0]) / (lower[1] - upper[1]);
      const firstRow = Math.max(0, Math.ceil(upper[1] - 0.5));
      const end = Math.min(height, Math.ceil(lower[1] - 0.5));
      if (firstRow >= end) continue;
      (starts[firstRow] as number[]).push(edges.length);
      edges.push({ x: upper[0] - upper[1] * slope, slope, end });
    }
  let active: number[] = [];
  const crossings: number[] = [];
  for (let row = 0; row < height; row++) {
    const arriving = starts[row] as number[];
    if (arriving.length > 0) active = active.concat(arriving);
    active = active.filter((e) => (edges[e] as { end: number }).end > row);
    crossings.length = 0;
    for (const e of active) {
      const edge = edges[e] as { x: number; slope: number };
      crossings.push(edge.x + (row + 0.5) * edge.slope);
    }
    crossings.sort((p, q) => p - q);
    for (let i = 0; i + 1 < crossings.length; i += 2) {
      const from = Math.max(0, Math.ceil((crossings[i] as number) - 0.5));
      const to = Math.min(width, Math.ceil((crossings[i + 1] as number) - 0.5));
      if (from < to) fillSpan(data, row * stride, from, to);
    }
  }
  return mask;
}
