import type { ArtLayer, ArtProbe, ImageCodec } from '../../core/ports/index.ts';
import type { Picture } from '../../core/raster/index.ts';
import { artTrouble } from '../../core/sentences/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { inTime, kindOf, LIMITS } from './artLimits.ts';
import { collect } from './collect.ts';
import { drawingsBy, trialHere } from './drawings.ts';
import type { DrawingTrial, PdfReader } from './drawingTrial.ts';
import { MOST_WINDOW_POINTS } from './drawSvg.ts';
import { isOpenRaster, openRasterLayers } from './openRaster.ts';
import { decode, decodePng, probePicture } from './pictures.ts';
import { pngOfMask, pngOfPicture } from './pngFile.ts';
import { isPdf } from './sniff.ts';
import { svgLayers } from './svgLayers.ts';
import { unitsOf } from './svgSize.ts';
import { unlessStopped } from './unlessStopped.ts';

/** Seconds the layers of an OpenRaster picture may take to be read and laid on its canvas. */
const SLOWEST_ORA_S = 60;
/** Seconds the layers of a PDF may take to be read and drawn in small, and then at the dots an inch that follow. */
const SLOWEST_PDF_TRIAL_S = 6;
const SLOWEST_PDF_S = 90;
const PDF_DPI = 600;

/**
 * Pictures by sharp (libvips). Drawings are read by our own scan first, drawn once to see that they can be
 * drawn in time, and handed to the library only as buffers: it then opens no other file.
 */
export function sharpCodec(
  options: { readonly trial?: DrawingTrial; readonly pdf?: PdfReader } = {},
): ImageCodec {
  const drawings = drawingsBy(options.trial ?? trialHere);

  /** Layers of a PDF: first small, in little time, so that what never ends ends soon; then as films need them. */
  async function pdfLayers(bytes: Uint8Array, name: string): Promise<Outcome<ArtLayer[]>> {
    const { pdf } = options;
    if (!pdf) throw new Error('A PDF is read in a process of its own: none was named.');
    const read = await pdf({ pdf: bytes, name, dpi: PDF_DPI }, SLOWEST_PDF_TRIAL_S, SLOWEST_PDF_S).catch(
      () => null,
    );
    if (read === 'late') return artTrouble.tooSlow(name, SLOWEST_PDF_TRIAL_S);
    if (read === null) return artTrouble.pdfDamaged(name);
    if (!('layers' in read)) return { ...read, ok: false, kind: 'input' };
    return done(read.layers.map(({ name: layer, hidden, png }) => ({ name: layer, hidden, bytes: png })));
  }

  return {
    async probe(bytes, name): Promise<Outcome<ArtProbe>> {
      const kind = kindOf(bytes, name);
      if (!kind.ok) return kind;
      if (kind.value === 'image/svg+xml') {
        const drawing = await drawings.of(bytes, name);
        if (!drawing.ok) return drawing;
        const { width, height } = unitsOf(drawing.value.size);
        const { stated } = drawing.value.size;
        return done({
          mediaType: kind.value,
          widthPx: width,
          heightPx: height,
          stated,
          alpha: true,
          vector: true,
        });
      }
      return probePicture(bytes, name, kind.value);
    },

    tryDrawing(bytes, name) {
      const kind = kindOf(bytes, name);
      // Whoever asks for a window hears of anything that is wrong.
      if (kind.ok && kind.value === 'image/svg+xml') drawings.of(bytes, name, true).catch(() => {});
    },

    decode: (bytes, name, maxSidePx, abort) => unlessStopped(decode(bytes, name, maxSidePx), abort),

    async layers(bytes, name): Promise<Outcome<readonly ArtLayer[]>> {
      if (bytes.length > LIMITS.bytes) return kindOf(bytes, name) as Outcome<never>;
      if (isPdf(bytes)) return pdfLayers(bytes, name);
      if (isOpenRaster(bytes)) return inTime(openRasterLayers(bytes, name, decodePng), name, SLOWEST_ORA_S);
      const kind = kindOf(bytes, name);
      if (!kind.ok) return kind;
      if (kind.value !== 'image/svg+xml') return done([]);
      const drawing = await drawings.of(bytes, name);
      return drawing.ok ? svgLayers(drawing.value.scan, name) : drawing;
    },

    async rasterise(bytes, name, window, abort): Promise<Outcome<Picture>> {
      const { outWidth, outHeight } = window;
      const whole =
        Number.isInteger(outWidth) && Number.isInteger(outHeight) && outWidth > 0 && outHeight > 0;
      if (!whole || !(window.width > 0 && window.height > 0))
        throw new Error('A window needs a positive, whole size.');
      if (
        outWidth > LIMITS.windowSide ||
        outHeight > LIMITS.windowSide ||
        outWidth * outHeight > MOST_WINDOW_POINTS
      )
        throw new Error(`A window of ${outWidth} × ${outHeight} points is too large: draw it in tiles.`);
      const kind = kindOf(bytes, name);
      if (!kind.ok) return kind;
      if (kind.value !== 'image/svg+xml') throw new Error('Only a drawing is rasterised.');
      return unlessStopped(drawings.rasterise(bytes, name, window), abort);
    },

    async encodePng(picture, dpi) {
      return pngOfPicture(picture, dpi);
    },

    async encodeMaskPng(mask, dpi) {
      return pngOfMask(mask, dpi);
    },

    letGo: collect,
  };
}
