import type { WarpGrid } from '../../../core/raster/index.ts';
import { stream } from './randomMask.ts';

/** Output point to source point. */
export type Map2 = (x: number, y: number) => [number, number];

/** A grid of nodes every `step` points over width × height, each where `map` says. */
export function gridOf(width: number, height: number, step: number, map: Map2): WarpGrid {
  const cols = Math.ceil(width / step) + 1;
  const rows = Math.ceil(height / step) + 1;
  const xy = new Float32Array(cols * rows * 2);
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < cols; c++) xy.set(map(c * step, r * step), 2 * (r * cols + c));
  return { step, cols, rows, xy };
}

/** Planes of soft blobs that sum to 255, plane 0 the rest. */
export function softPlanes(count: number, width: number, height: number, seed: number): Uint8Array[] {
  const next = stream(seed);
  const planes = Array.from({ length: count }, () => new Uint8Array(width * height));
  const spots = Array.from({ length: 4 * count }, (_, i) => ({
    k: i % count,
    x: next() * width,
    y: next() * height,
    r: 1 + next() * Math.min(width, height) * 0.3,
  }));
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      let rest = 255;
      for (const spot of spots) {
        if (spot.k === 0) continue;
        const edge = spot.r + 0.5 - Math.hypot(x - spot.x, y - spot.y);
        const part = Math.round(Math.min(1, Math.max(0, edge)) * rest);
        planes[spot.k]![y * width + x]! += part;
        rest -= part;
      }
      planes[0]![y * width + x] = rest;
    }
  return planes;
}
