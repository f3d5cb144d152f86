import { byteOfLinear, LINEAR_OF_BYTE, parseHex } from '../colour/index.ts';
import type { Picture, WarpGrid } from '../raster/index.ts';

/** Most samples along each side of a point: art denser than that is reduced before. */
const MOST_SAMPLES = 8;
/** Encoded levels a point may differ from the paper and be bare, and from which on it is wholly art. */
const PAPER_LEVELS = 12;
const ART_LEVELS = 36;

const STEPS = 4096;
const BYTE_OF = Uint8Array.from({ length: STEPS + 1 }, (_, i) => byteOfLinear(i / STEPS));

/**
 * Lays a picture over another, in linear light, through a warp: for every point of the tile (outX, outY, width, height) of `out`
 * the picture is sampled where the grid names (see `WarpGrid`; beyond it it is transparent), bilinearly, and where several of
 * its points fall on one, at as many places as make an average of the area. Alpha is straight in both. The grid must span the
 * tile and the tile lie inside `out`; throws otherwise.
 */
export function warpTonesOver(
  picture: Picture,
  grid: WarpGrid,
  out: Picture,
  outX: number,
  outY: number,
  width: number,
  height: number,
): void {
  const { step, cols, rows, xy } = grid;
  if ((cols - 1) * step < width || (rows - 1) * step < height)
    throw new RangeError('The grid must span the tile.');
  if (outX < 0 || outY < 0 || outX + width > out.width || outY + height > out.height)
    throw new RangeError('The tile must lie inside the picture beneath.');
  const { data } = picture;
  const light = new Float64Array(4);
  for (let top = 0, r = 0; top < height; top += step, r++)
    for (let left = 0, c = 0; left < width; left += step, c++) {
      const a = 2 * (r * cols + c);
      const b = a + 2 * cols;
      const [x0, y0, x1, y1] = [xy[a]!, xy[a + 1]!, xy[a + 2]!, xy[a + 3]!];
      const [x2, y2, x3, y3] = [xy[b]!, xy[b + 1]!, xy[b + 2]!, xy[b + 3]!];
      if (
        Math.max(x0, x1, x2, x3) < -1 ||
        Math.max(y0, y1, y2, y3) < -1 ||
        Math.min(x0, x1, x2, x3) > picture.width + 1 ||
        Math.min(y0, y1, y2, y3) > picture.height + 1
      )
        continue;
      const reach = Math.max(Math.hypot(x1 - x0, y1 - y0), Math.hypot(x2 - x0, y2 - y0)) / step;
      const samples = Math.max(1, Math.min(MOST_SAMPLES, Math.ceil(reach - 0.25)));
      const bottom = Math.min(height, top + step);
      const right = Math.min(width, left + step);
      for (let y = top; y < bottom; y++)
        for (let x = left; x < right; x++) {
          light[0] = 0;
          light[1] = 0;
          light[2] = 0;
          light[3] = 0;
          for (let j = 0; j < samples; j++) {
            const v = (y - top + (j + 0.5) / samples) / step;
            const lineX = x0 + (x2 - x0) * v;
            const lineY = y0 + (y2 - y0) * v;
            const alongX = x1 + (x3 - x1) * v - lineX;
            const alongY = y1 + (y3 - y1) * v - lineY;
            for (let i = 0; i < samples; i++) {
              const u = (x - left + (i + 0.5) / samples) / step;
              addSample(
                data,
                picture.width,
                picture.height,
                lineX + alongX * u - 0.5,
                lineY + alongY * u - 0.5,
                light,
              );
            }
          }
          if (light[3]! > 0)
            layOver(out.data, 4 * ((outY + y) * out.width + outX + x), light, 1 / (samples * samples));
        }
    }
}

/** Adds the picture at (x, y) to light and alpha (premultiplied; alpha 0 to 1); beyond its border it is transparent. */
function addSample(
  data: Uint8Array | Uint8ClampedArray,
  width: number,
  height: number,
  x: number,
  y: number,
  light: Float64Array,
): void {
  const left = Math.floor(x);
  const top = Math.floor(y);
  if (left < -1 || top < -1 || left >= width || top >= height) return;
  const u = x - left;
  const v = y - top;
  const at = 4 * (top * width + left);
  if (top >= 0) {
    if (left >= 0) addPoint(data, at, (1 - u) * (1 - v), light);
    if (left + 1 < width) addPoint(data, at + 4, u * (1 - v), light);
  }
  if (top + 1 < height) {
    if (left >= 0) addPoint(data, at + 4 * width, (1 - u) * v, light);
    if (left + 1 < width) addPoint(data, at + 4 * width + 4, u * v, light);
  }
}

function addPoint(
  data: Uint8Array | Uint8ClampedArray,
  at: number,
  share: number,
  light: Float64Array,
): void {
  const weight = (share * data[at + 3]!) / 255;
  light[0] = light[0]! + weight * LINEAR_OF_BYTE[data[at]!]!;
  light[1] = light[1]! + weight * LINEAR_OF_BYTE[data[at + 1]!]!;
  light[2] = light[2]! + weight * LINEAR_OF_BYTE[data[at + 2]!]!;
  light[3] = light[3]! + weight;
}

/** Lays premultiplied light, times `scale`, over one point. */
function layOver(data: Uint8Array | Uint8ClampedArray, at: number, light: Float64Array, scale: number): void {
  const alpha = Math.min(1, light[3]! * scale);
  const beneath = (data[at + 3]! / 255) * (1 - alpha);
  const whole = alpha + beneath;
  for (let c = 0; c < 3; c++) {
    const seen = (light[c]! * scale + beneath * LINEAR_OF_BYTE[data[at + c]!]!) / whole;
    data[at + c] = BYTE_OF[Math.min(STEPS, (seen * STEPS + 0.5) | 0)]!;
  }
  data[at + 3] = Math.round(255 * whole);
}

/** The picture with its paper (`hex`) transparent: wholly where it is paper, by degrees where it is nearly so. */
export function withoutGround(picture: Picture, hex: string): Picture {
  const paper = parseHex(hex);
  const data = Uint8Array.from(picture.data);
  for (let i = 0; i < data.length; i += 4) {
    const off = Math.max(
      Math.abs(data[i]! - paper[0]),
      Math.abs(data[i + 1]! - paper[1]),
      Math.abs(data[i + 2]! - paper[2]),
    );
    if (off >= ART_LEVELS) continue;
    const share = Math.max(0, off - PAPER_LEVELS) / (ART_LEVELS - PAPER_LEVELS);
    data[i + 3] = Math.round(data[i + 3]! * share);
  }
  return { width: picture.width, height: picture.height, data };
}
