import type { Px } from '../units/index.ts';
import { screenEnlargedFast, WIDEST_FACTOR } from './kernels/enlargeFast.ts';
import { kernels } from './kernels/load.ts';
import { type Mask, signedWords } from './mask.ts';
import type { Plane } from './plane.ts';
import type { ThresholdTile } from './thresholdTile.ts';

/**
 * Inks in `out` the squares of `factor` × `factor` points of the mask's ink, from the top left corner: exact, nothing is
 * smoothed. What falls beyond `out` is cut off; ink already there stays. `factor` is whole and at least 1; throws otherwise.
 */
export function enlargeMask(mask: Mask, factor: number, out: Mask): Mask {
  if (!Number.isInteger(factor) || factor < 1)
    throw new RangeError(`A mask is enlarged by a whole factor of at least 1, not by ${factor}.`);
  const from = signedWords(mask);
  const to = signedWords(out);
  const row = new Int32Array(out.stride);
  const rows = Math.min(mask.height, Math.ceil(out.height / factor));
  for (let y = 0; y < rows; y++) {
    row.fill(0);
    let any = false;
    for (let w = 0; w < mask.stride; w++) {
      const bits = from[y * mask.stride + w]!;
      if (bits === 0) continue;
      any = true;
      for (let b = 0; b < 32; b++)
        if ((bits >>> b) & 1) inkRun(row, (w * 32 + b) * factor, factor, out.width);
    }
    if (!any) continue;
    const end = Math.min(out.height, (y + 1) * factor);
    for (let at = y * factor; at < end; at++)
      for (let w = 0, o = at * out.stride; w < out.stride; w++, o++) to[o] = to[o]! | row[w]!;
  }
  return out;
}

/** Sets `length` bits of a row from bit `start`, none at or beyond `width`. */
function inkRun(row: Int32Array, start: number, length: number, width: number): void {
  const end = Math.min(width, start + length);
  for (let x = start; x < end; ) {
    const bit = x & 31;
    const count = Math.min(32 - bit, end - x);
    row[x >>> 5] = row[x >>> 5]! | ((-1 >>> (32 - count)) << bit);
    x += count;
  }
}

/**
 * A plane of coverage enlarged by a whole factor and cut to dots by `tile`, in `out`: point x of the plane covers points
 * x·factor to (x + 1)·factor of the mask, its value holds at the middle of those and runs straight to its neighbours'.
 * The enlarged plane never exists whole. Ink in `out` is replaced.
 * Throws unless the plane, enlarged, holds `out` and the factor is whole and at least 1.
 */
export function screenEnlarged(plane: Plane, factor: number, tile: ThresholdTile, out: Mask): Mask {
  if (!Number.isInteger(factor) || factor < 1)
    throw new RangeError(`A plane is enlarged by a whole factor of at least 1, not by ${factor}.`);
  if (plane.width * factor < out.width || plane.height * factor < out.height)
    throw new RangeError('The enlarged plane must reach as far as the mask.');
  const fast = factor <= WIDEST_FACTOR && out.width > 0 && out.height > 0 ? kernels() : null;
  if (fast) screenEnlargedFast(fast, plane, factor, tile, out);
  else screenEnlargedPlain(plane, factor, tile, out);
  return out;
}

/** The readable definition of `screenEnlarged`. */
export function screenEnlargedPlain(plane: Plane, factor: number, tile: ThresholdTile, out: Mask): void {
  const { width: period, height: depth, shift, data } = tile;
  const line = new Int32Array(plane.width);
  const row = new Uint8Array(out.width);
  out.data.fill(0);
  for (let y = 0; y < out.height; y++) {
    if (!enlargeRow(plane, factor, y, line, row, 0, out.width)) continue;
    const thresholds = (y % depth) * period;
    let at = (Math.floor(y / depth) * shift) % period;
    for (let x = 0; x < out.width; x++) {
      if (row[x]! >= data[thresholds + at]!) {
        const word = y * out.stride + (x >>> 5);
        out.data[word] = out.data[word]! | (1 << (x & 31));
      }
      if (++at === period) at = 0;
    }
  }
}

/** One row of the plane enlarged, bilinear; returns whether anything in it is above 0. `line` is scratch. */
function enlargeRow(
  plane: Plane,
  factor: number,
  y: Px,
  line: Int32Array,
  out: Uint8Array,
  at: number,
  width: Px,
): boolean {
  const { width: across, height: down, data } = plane;
  // Twice the distance from the middle of the plane's row above, in enlarged points.
  const place = 2 * y + 1 - factor;
  const above = Math.max(0, Math.floor(place / (2 * factor)));
  const below = Math.min(down - 1, Math.floor(place / (2 * factor)) + 1);
  const share = Math.max(0, place) - above * 2 * factor;
  let any = 0;
  for (let x = 0; x < across; x++) {
    const a = data[above * across + x]!;
    const value = a * 2 * factor + (data[below * across + x]! - a) * share;
    line[x] = value;
    any |= value;
  }
  if (any === 0) {
    out.fill(0, at, at + width);
    return false;
  }
  const full = 4 * factor * factor;
  const half = full / 2;
  for (let x = 0; x < width; x++) {
    const along = 2 * x + 1 - factor;
    const left = Math.floor(along / (2 * factor));
    const step = along - left * 2 * factor;
    const a = line[Math.max(0, left)]!;
    const b = line[Math.min(across - 1, left + 1)]!;
    out[at + x] = (a * 2 * factor + (b - a) * step + half) / full;
  }
  return true;
}
