import type { Box, Ring } from '../units/index.ts';
import type { Misfit } from './misfit.ts';
import type { Pixels } from './pictureLight.ts';

/** mm from one contour line to the next. */
export const MISFIT_CONTOUR = 0.25;
/** mm at which the colours are full. */
const FULL_MM = 1.5;
type Rgba = readonly [number, number, number, number];
const LINE: Rgba = [40, 24, 10, 190];
const LONGER = [214, 84, 20] as const;
const SHORTER = [22, 92, 150] as const;

/** Misfit, mm, between the grid's points; beyond the outline its last points stand for what lies between them and it. */
function misfitAt({ s, t, misfitMm }: Misfit, at: number, across: number): number {
  const cols = s.length;
  const rows = t.length;
  const x = ((at - s[0]!) / (s[cols - 1]! - s[0]!)) * (cols - 1);
  const y = ((across - t[0]!) / (t[rows - 1]! - t[0]!)) * (rows - 1);
  const c = Math.min(cols - 2, Math.max(0, Math.floor(x)));
  const r = Math.min(rows - 2, Math.max(0, Math.floor(y)));
  let [sum, weight] = [0, 0];
  for (let j = 0; j < 2; j++)
    for (let i = 0; i < 2; i++) {
      const mm = misfitMm[(r + j) * cols + c + i]!;
      if (Number.isNaN(mm)) continue;
      const [fx, fy] = [x - c, y - r];
      const share = Math.max(0, i ? fx : 1 - fx) * Math.max(0, j ? fy : 1 - fy) + 1e-6;
      sum += mm * share;
      weight += share;
    }
  return weight > 0 ? sum / weight : Number.NaN;
}

/**
 * Where a flat film is shorter than the bent wood beneath it (orange) or longer (blue), with a line every
 * `MISFIT_CONTOUR` mm, so that colour is not all that tells. Clear elsewhere; with `outline` (on the surface) also
 * beyond that. Row 0 is the top; the box is on the surface, mm.
 */
export function misfitPicture(
  grid: Misfit,
  pxPerMm: number,
  outline: Ring | null = null,
): { readonly picture: Pixels & { readonly data: Uint8ClampedArray<ArrayBuffer> }; readonly box: Box } {
  const [s0, t0] = [grid.s[0]!, grid.t[0]!];
  const box: Box = {
    x: s0,
    y: t0,
    width: grid.s[grid.s.length - 1]! - s0,
    height: grid.t[grid.t.length - 1]! - t0,
  };
  const width = Math.max(1, Math.round(box.width * pxPerMm));
  const height = Math.max(1, Math.round(box.height * pxPerMm));
  const data = new Uint8ClampedArray(width * height * 4);
  const step = 1 / pxPerMm;
  const level = (x: number, y: number) => Math.round(misfitAt(grid, x, y) / MISFIT_CONTOUR);
  for (let y = 0; y < height; y++) {
    const t = t0 + box.height - (y + 0.5) * step;
    const spans = outline ? crossings(outline, t) : [-Infinity, Infinity];
    for (let k = 0; k + 1 < spans.length; k += 2) {
      const from = Math.max(0, Math.ceil((spans[k]! - s0) * pxPerMm - 0.5));
      const to = Math.min(width, Math.ceil((spans[k + 1]! - s0) * pxPerMm - 0.5));
      for (let x = from; x < to; x++) {
        const s = s0 + (x + 0.5) * step;
        const mm = misfitAt(grid, s, t);
        if (Number.isNaN(mm)) continue;
        const here = Math.round(mm / MISFIT_CONTOUR);
        const right = level(s + step, t);
        const above = level(s, t + step);
        const line = (!Number.isNaN(right) && right !== here) || (!Number.isNaN(above) && above !== here);
        const alpha = Math.round(Math.min(1, Math.abs(mm) / FULL_MM) * 220);
        const colour = mm > 0 ? LONGER : SHORTER;
        data.set(line ? LINE : [...colour, alpha], (y * width + x) * 4);
      }
    }
  }
  return { picture: { width, height, data }, box };
}

/** Where a ring crosses the line at `t`, ascending. */
function crossings(ring: Ring, t: number): number[] {
  const found: number[] = [];
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [ax, ay] = ring[i]!;
    const [bx, by] = ring[j]!;
    if (ay > t !== by > t) found.push(ax + ((bx - ax) * (t - ay)) / (by - ay));
  }
  return found.sort((a, b) => a - b);
}
