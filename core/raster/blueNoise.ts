import { BLUE_NOISE_RANKS } from './blueNoise.generated.ts';
import { fromBase64 } from './kernels/load.ts';
import type { ThresholdTile } from './thresholdTile.ts';

/** Points along a side of the tile. */
export const BLUE_NOISE_SIZE = 64;

/** The ranks' seed: any would do; this one is part of every file made with the tile. */
export const BLUE_NOISE_SEED = 1;

let tile: ThresholdTile | null = null;

/**
 * Thresholds of blue noise, 64 × 64, that repeat over a plane: an irregular grain without rows, for tones that must not
 * meet mesh or weave. Kept as data; `voidAndCluster` made it.
 */
export function blueNoiseTile(): ThresholdTile {
  if (tile) return tile;
  const points = BLUE_NOISE_SIZE * BLUE_NOISE_SIZE;
  const bytes = fromBase64(BLUE_NOISE_RANKS);
  const data = new Uint8Array(points);
  for (let i = 0; i < points; i++)
    data[i] = 1 + Math.floor(((bytes[2 * i]! + 256 * bytes[2 * i + 1]!) * 255) / points);
  tile = { width: BLUE_NOISE_SIZE, height: BLUE_NOISE_SIZE, shift: 0, data };
  return tile;
}
