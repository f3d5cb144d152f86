import { type Deck, type Face, misfit } from '../../core/deck/index.ts';
import type { Box } from '../../core/units/index.ts';

export interface MisfitMap {
  readonly picture: ImageData;
  readonly box: Box;
  /** Wood length over film length, furthest from 1. */
  readonly worstStretch: number;
  /** mm, signed: wood longer than film is positive. */
  readonly worstMm: number;
}

/** mm from one contour line to the next. */
export const CONTOUR_MM = 0.25;
/** mm at which the colours are full. */
const FULL_MM = 1.5;
/** Points drawn for each point of the grid, each way. */
const FINER = 5;

/**
 * Where a flat film is longer (blue) or shorter (orange) than the bent wood beneath it, with a contour line every
 * `CONTOUR_MM`, so that colour is not all that tells. Row 0 is the top.
 */
export function misfitPicture(deck: Deck, face: Face, development: 'balanced' | 'centreline'): MisfitMap {
  const grid = misfit(deck, face, development);
  const cols = grid.s.length;
  const rows = grid.t.length;
  const width = (cols - 1) * FINER + 1;
  const height = (rows - 1) * FINER + 1;
  const value = (x: number, y: number): number => {
    const c = Math.min(cols - 2, Math.floor(x / FINER));
    const r = Math.min(rows - 2, Math.floor(y / FINER));
    const fx = x / FINER - c;
    const fy = y / FINER - r;
    // Beyond the outline the grid is empty: its last points stand for what lies between them and the rail.
    let sum = 0;
    let weight = 0;
    for (let j = 0; j < 2; j++)
      for (let i = 0; i < 2; i++) {
        const mm = grid.misfitMm[(r + j) * cols + c + i]!;
        if (Number.isNaN(mm)) continue;
        const share = (i ? fx : 1 - fx) * (j ? fy : 1 - fy) + 1e-6;
        sum += mm * share;
        weight += share;
      }
    return weight > 0 ? sum / weight : Number.NaN;
  };
  const picture = new ImageData(width, height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const mm = value(x, y);
      if (Number.isNaN(mm)) continue;
      const o = ((height - 1 - y) * width + x) * 4;
      const share = Math.min(1, Math.abs(mm) / FULL_MM);
      const step = Math.round(mm / CONTOUR_MM);
      const right = x + 1 < width ? Math.round(value(x + 1, y) / CONTOUR_MM) : step;
      const above = y + 1 < height ? Math.round(value(x, y + 1) / CONTOUR_MM) : step;
      const line = (step !== right && !Number.isNaN(right)) || (step !== above && !Number.isNaN(above));
      const [r, g, b] = line ? [40, 24, 10] : mm > 0 ? [214, 84, 20] : [22, 92, 150];
      picture.data.set([r!, g!, b!, line ? 190 : Math.round(30 + share * 190)], o);
    }
  const s0 = grid.s[0]!;
  const t0 = grid.t[0]!;
  return {
    picture,
    box: { x: s0, y: t0, width: grid.s[cols - 1]! - s0, height: grid.t[rows - 1]! - t0 },
    worstStretch: grid.worstStretch.value,
    worstMm: grid.worstMisfit.mm as number,
  };
}
