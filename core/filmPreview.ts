import type { Face } from './deck/index.ts';
import { growthOf } from './faceGrowth.ts';
import type { FacePreview } from './facePreview.ts';
import { type FaceRaster, faceRaster } from './faceRaster.ts';
import type { Job } from './job/index.ts';
import { blankMask, type Mask } from './raster/index.ts';
import { done, type Outcome, pxPerMm } from './units/index.ts';

/** Points between places whose way to the surface is worked out; between them it is as good as straight. */
const STEP = 16;

/** What films are laid on sheets from: a face's prints along the wood. */
export type PreviewPrints = Pick<FacePreview, 'box' | 'width' | 'height' | 'dpi' | 'prints'>;

/**
 * A face's prints in film space, from a preview along the wood: each point takes what the preview has where it lies. Films
 * planned from these have the places and lengths of the export, to a point of the preview.
 */
export function filmPreview(
  job: Job,
  face: Face,
  preview: PreviewPrints,
): Outcome<{ readonly raster: FaceRaster; readonly prints: readonly Mask[] }> {
  const { dpi } = preview;
  const growth = growthOf(job, face);
  if (!growth.ok) return growth;
  const { development, railMargin } = job.faces[face];
  const raster = faceRaster(job.deck, face, dpi, {
    kind: 'film',
    development,
    growth: growth.value,
    railMargin,
  });
  const prints = preview.prints.map(() => blankMask(raster.width, raster.height));
  const scale = pxPerMm(dpi);
  const cols = Math.ceil(raster.width / STEP) + 1;
  const top = raster.box.y + raster.box.height;
  const from = preview.box.y + preview.box.height;
  /** Where the middles of a row's points lie in the preview, at every `STEP`-th: x and y in its points. */
  const nodes = (y: number, out: Float64Array) => {
    for (let c = 0; c < cols; c++) {
      const { s, t } = raster.toSurface(raster.box.x + (c * STEP + 0.5) / scale, top - (y + 0.5) / scale);
      out[2 * c] = (s - preview.box.x) * scale;
      out[2 * c + 1] = (from - t) * scale;
    }
  };
  let upper = new Float64Array(2 * cols);
  let lower = new Float64Array(2 * cols);
  nodes(0, lower);
  /** Where each of a row's points lies in the preview: its bit, counted from the mask's beginning; -1 beyond it. */
  const bits = new Int32Array((cols - 1) * STEP);
  const stride = preview.prints[0]?.stride ?? 0;
  for (let y = 0; y < raster.height; y++) {
    if (y % STEP === 0) {
      [upper, lower] = [lower, upper];
      nodes(y + STEP, lower);
    }
    const down = (y % STEP) / STEP;
    for (let c = 0; c + 1 < cols; c++) {
      const left = upper[2 * c]! + (lower[2 * c]! - upper[2 * c]!) * down;
      const right = upper[2 * c + 2]! + (lower[2 * c + 2]! - upper[2 * c + 2]!) * down;
      const high = upper[2 * c + 1]! + (lower[2 * c + 1]! - upper[2 * c + 1]!) * down;
      const low = upper[2 * c + 3]! + (lower[2 * c + 3]! - upper[2 * c + 3]!) * down;
      for (let k = 0; k < STEP; k++) {
        const px = Math.floor(left + ((right - left) * k) / STEP);
        const py = Math.floor(high + ((low - high) * k) / STEP);
        const inside = px >= 0 && py >= 0 && px < preview.width && py < preview.height;
        bits[c * STEP + k] = inside ? py * stride * 32 + px : -1;
      }
    }
    for (let i = 0; i < prints.length; i++) {
      const from = preview.prints[i]!.data;
      const to = prints[i]!.data;
      const row = y * prints[i]!.stride;
      for (let x = 0; x < raster.width; x++) {
        const bit = bits[x]!;
        if (bit >= 0 && (from[bit >> 5]! >>> (bit & 31)) & 1) to[row + (x >> 5)]! |= 1 << (x & 31);
      }
    }
  }
  return done({ raster, prints });
}
