import type { Picture } from '../raster/index.ts';

/** Encoded levels between neighbours that are grain and not a drawn edge. */
const GRAIN_LEVELS = 16;
const LOOKED_AT_ROWS = 300;
/** Share of the uneven points that are grain on all sides. Drawn soft edges have next to none, JPEG at quality 98 a sixth. */
const GRAINY_SHARE = 0.1;

/**
 * Whether the picture has been through lossy compression or a camera: then a colour near an ink is that ink, and thin lines need
 * more evidence. Tells drawn art by its grain: points that differ a little from all four neighbours.
 */
export function isGrainy({ width, height, data }: Picture): boolean {
  let uneven = 0;
  let grain = 0;
  /** Largest difference of the four channels. */
  const off = (i: number, j: number): number => {
    let most = 0;
    for (let c = 0; c < 4; c++) most = Math.max(most, Math.abs(data[i * 4 + c]! - data[j * 4 + c]!));
    return most;
  };
  // Some hundred rows tell as much as all.
  const step = Math.max(1, Math.floor(height / LOOKED_AT_ROWS));
  for (let y = 1; y < height - 1; y += step)
    for (let x = 1; x < width - 1; x++) {
      const i = y * width + x;
      const left = off(i, i - 1);
      const right = off(i, i + 1);
      if (left === 0 && right === 0) continue;
      uneven++;
      if (left === 0 || right === 0 || left > GRAIN_LEVELS || right > GRAIN_LEVELS) continue;
      const up = off(i, i - width);
      const down = off(i, i + width);
      if (up > 0 && down > 0 && up <= GRAIN_LEVELS && down <= GRAIN_LEVELS) grain++;
    }
  return grain > GRAINY_SHARE * uneven;
}
