import sharp from 'sharp';
import { linearToSrgb, srgbToLinear } from '../../../core/colour/index.ts';
import { blankMask, getBit, grow, type Mask, type Picture, warpSparse } from '../../../core/raster/index.ts';
import { placeEdges, type SeparateOptions, separateSparse } from '../../../core/separate/index.ts';

/** How a separation at film resolution differs from the hard-edged truth of the same size. */
export interface Measured {
  /** Points with an ink that the truth has nowhere within 3 film points, and their share of all. */
  readonly falseInk: number;
  readonly falseShare: number;
  /** Mean distance between the separation's edges and the truth's, film points: wrong area over edge length. */
  readonly displacement: number;
  /** Share of points with another ink than the truth. */
  readonly wrongShare: number;
}

/** Film points within which an ink of the truth must lie. */
const REACH = 3;
/** Length of a curve over the count of point borders it crosses, mean over all directions (Crofton): π / 4. */
const STAIR = Math.PI / 4;

export async function render(svg: string): Promise<Picture> {
  const { data, info } = await sharp(Buffer.from(svg))
    .toColourspace('srgb')
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, data };
}

/** The picture once through JPEG, on `paper` where it is transparent. */
export async function throughJpeg(picture: Picture, quality: number, paper: string): Promise<Picture> {
  const { width, height, data } = picture;
  const bytes = await sharp(data, { raw: { width: width as number, height: height as number, channels: 4 } })
    .flatten({ background: paper })
    .jpeg({ quality })
    .toBuffer();
  const back = await sharp(bytes).ensureAlpha().raw().toBuffer({ resolveWithObject: true });
  return { width, height, data: back.data };
}

/** Coverage of the art brought to `scale` times its size as `separateTile` does, the largest coverage winning. */
export function filmsOf(
  picture: Picture,
  inks: readonly string[],
  ground: string | null,
  scale: number,
  options?: SeparateOptions,
): Mask[] {
  const coverage = placeEdges(
    separateSparse(picture, { inks: inks.map((hex) => ({ hex })), ground }, options),
    options?.coarse,
  );
  // A scale of 200 / 3 and the like ends beside whole points.
  const width = Math.round(picture.width * scale);
  const height = Math.round(picture.height * scale);
  const out = inks.map(() => blankMask(width, height));
  const step = 32;
  const cols = Math.ceil(width / step) + 1;
  const rows = Math.ceil(height / step) + 1;
  const xy = new Float32Array(cols * rows * 2);
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < cols; c++) {
      xy[(r * cols + c) * 2] = (c * step) / scale;
      xy[(r * cols + c) * 2 + 1] = (r * step) / scale;
    }
  warpSparse(coverage, { step, cols, rows, xy }, out, 0, 0, width, height);
  return out;
}

/** One label a point (0 bare, k + 1 ink k) from a picture that has only pure colours. */
export function truthOf(hard: Picture, inks: readonly string[]): Uint8Array {
  const { data } = hard;
  const labels = new Uint8Array(data.length / 4);
  const key = (hex: string) => Number.parseInt(hex.slice(1), 16);
  const of = new Map(inks.map((hex, i) => [key(hex), i + 1]));
  for (let i = 0; i < labels.length; i++)
    if (data[i * 4 + 3]! >= 128)
      labels[i] = of.get((data[i * 4]! << 16) | (data[i * 4 + 1]! << 8) | data[i * 4 + 2]!) ?? 0;
  return labels;
}

export function measure(films: readonly Mask[], truth: Uint8Array, width: number, height: number): Measured {
  let falseInk = 0;
  let borders = 0;
  films.forEach((film, k) => {
    const real = blankMask(width, height);
    for (let y = 0, i = 0; y < height; y++)
      for (let x = 0; x < width; x++, i++)
        if (truth[i] === k + 1) real.data[y * real.stride + (x >> 5)]! |= 1 << (x & 31);
    const reach = grow(real, REACH);
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++) if (getBit(film, x, y) && !getBit(reach, x, y)) falseInk++;
  });
  for (let y = 0, i = 0; y < height; y++)
    for (let x = 0; x < width; x++, i++) {
      if (x + 1 < width && truth[i] !== truth[i + 1]) borders++;
      if (y + 1 < height && truth[i] !== truth[i + width]) borders++;
    }
  const points = width * height;
  let other = 0;
  const found = new Uint8Array(points);
  films.forEach((film, k) => {
    for (let y = 0, i = 0; y < height; y++)
      for (let x = 0; x < width; x++, i++) if (getBit(film, x, y)) found[i] = k + 1;
  });
  for (let i = 0; i < points; i++) if (found[i] !== truth[i]) other++;
  return {
    falseInk,
    falseShare: falseInk / points,
    displacement: other / Math.max(1, borders * STAIR),
    wrongShare: other / points,
  };
}

/** The picture made `factor` times smaller by a mean in light over each square, alpha weighted: how a camera mixes an edge. */
export function boxInLight({ width, height, data }: Picture, factor: number): Picture {
  const w = Math.floor(width / factor);
  const h = Math.floor(height / factor);
  const out = new Uint8Array(w * h * 4);
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++) {
      const sum = [0, 0, 0, 0];
      for (let v = 0; v < factor; v++)
        for (let u = 0; u < factor; u++) {
          const i = ((y * factor + v) * width + x * factor + u) * 4;
          const alpha = data[i + 3]!;
          for (let c = 0; c < 3; c++) sum[c]! += srgbToLinear(data[i + c]! / 255) * alpha;
          sum[3]! += alpha;
        }
      const o = (y * w + x) * 4;
      for (let c = 0; c < 3; c++)
        out[o + c] = sum[3]! > 0 ? Math.round(linearToSrgb(sum[c]! / sum[3]!) * 255) : 0;
      out[o + 3] = Math.round(sum[3]! / (factor * factor));
    }
  return { width: w, height: h, data: out };
}
