import type { Picture } from '../raster/index.ts';
import type { Coverage } from './coverage.ts';

/** What of a layer is ink. */
export type LayerTakes = 'alpha' | 'darkness';

/** Shares of red, green and blue in how light an encoded colour is (luma, ITU-R BT.709-6), in 1/1024. */
const [RED, GREEN, BLUE] = [218, 732, 74];

/**
 * How much ink a layer's point asks for, 0 to 255. `alpha`: as much as anything is drawn there. `darkness`: that, times how
 * dark it is by its encoded value, so that a grey of 50 % is a tint of 50 %, as tints of one ink are written in
 * grey pictures (common practice, no source).
 */
export function layerInk(data: Uint8Array | Uint8ClampedArray, at: number, takes: LayerTakes): number {
  const alpha = data[at + 3]!;
  if (takes === 'alpha' || alpha === 0) return alpha;
  const light = (RED * data[at]! + GREEN * data[at + 1]! + BLUE * data[at + 2]!) >> 10;
  return Math.round((alpha * (255 - light)) / 255);
}

/** A layer as coverage of the one ink it is for. Planes: bare, ink. */
export function layerCoverage({ width, height, data }: Picture, takes: LayerTakes): Coverage {
  const bare = new Uint8Array(width * height);
  const ink = new Uint8Array(width * height);
  for (let i = 0; i < ink.length; i++) {
    const share = layerInk(data, 4 * i, takes);
    ink[i] = share;
    bare[i] = 255 - share;
  }
  return { width, height, planes: [bare, ink] };
}

/** The layer as a picture that is opaque as much as it asks for ink. */
export function layerTones({ width, height, data }: Picture, takes: LayerTakes): Picture {
  const out = new Uint8Array(data.length);
  for (let at = 0; at < data.length; at += 4) out[at + 3] = layerInk(data, at, takes);
  return { width, height, data: out };
}
