import sharp, { type Metadata, type Sharp } from 'sharp';
import type { ArtLayer, ArtMediaType, ArtProbe, ImageCodec, SvgWindow } from '../../core/ports/index.ts';
import type { Picture } from '../../core/raster/index.ts';
import { artTrouble, drawingTrouble } from '../../core/sentences/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import type { DrawingTrial, PdfReader } from './drawingTrial.ts';
import { drawSvg, MOST_WINDOW_POINTS, pixelsOf } from './drawSvg.ts';
import { isOpenRaster, openRasterLayers } from './openRaster.ts';
import { pngOfMask, pngOfPicture } from './pngFile.ts';
import {
  exifResolution,
  jfifResolution,
  pngResolution,
  type Resolution,
  tiffResolution,
} from './resolution.ts';
import { isPdf, sniff } from './sniff.ts';
import { svgLayers } from './svgLayers.ts';
import { type SvgScan, scanSvg } from './svgScan.ts';
import { framed, type SvgSize, svgSize, unitsOf } from './svgSize.ts';

// A file that was written again under its old name must be read again.
sharp.cache(false);
// Films are cut into work for our own threads; the library's own would compete with them.
sharp.concurrency(2);

/** What a piece of art may be. Bounds keep the worst input within 10 s and 1.5 GB. */
const LIMITS = {
  bytes: 100 * 1024 * 1024,
  /** Of a drawing's text. Rich full-deck drawings are 1 to 5 MB without their embedded pictures. */
  svgBytes: 40 * 1024 * 1024,
  /** A deck face at 600 dpi is 100 million; four bytes each while they are worked on. */
  pixels: 160_000_000,
  side: 65_500,
  /** Of all pictures embedded in one drawing. */
  embeddedPixels: 60_000_000,
  /** A side and the points of one window of a drawing; the library draws up to 32767 a side. */
  windowSide: 32_767,
} as const;

/** Seconds a picture may take to decode, and a drawing to be read and drawn once. */
const SLOWEST_S = 7;
/** Longer side of the trial drawing, points: what colours are looked for at, so that it is rarely drawn for nothing. */
export const TRIAL_SIDE = 2400;
/** Seconds the layers of an OpenRaster picture may take to be read and laid on its canvas. */
const SLOWEST_ORA_S = 60;
/** Seconds the layers of a PDF may take to be read and drawn in small, and then at the dots an inch that follow. */
const SLOWEST_PDF_TRIAL_S = 6;
const SLOWEST_PDF_S = 90;
const PDF_DPI = 600;
/** Seconds that reading a drawing and a first look at it may take together; a look is always given `LEAST_LOOK_S`. */
const SLOWEST_IMPORT_S = 9;
const LEAST_LOOK_S = 1.5;
/** Seconds one window of a drawing that passed its trial may take, on a busy machine too. */
const SLOWEST_WINDOW_S = 60;

const KIND_NAMES: Readonly<Record<ArtMediaType, string>> = {
  'image/png': 'PNG',
  'image/jpeg': 'JPEG',
  'image/webp': 'WebP',
  'image/tiff': 'TIFF',
  'image/avif': 'AVIF',
  'image/svg+xml': 'SVG',
};

interface Drawing {
  readonly scan: SvgScan;
  readonly size: SvgSize;
  /** Seconds it took to read it and to try it. */
  readonly tookS: number;
  /** The whole drawing as tried, until somebody asks for just that. */
  trial: Picture | null;
}

const tooLarge = (name: string, width: number, height: number) =>
  artTrouble.tooManyPoints(name, width, height, LIMITS.pixels / 1e6);
const damaged = (name: string, kind: string) => artTrouble.damaged(name, kind);
const tooSlow = (name: string, seconds: number) => artTrouble.tooSlow(name, seconds);

/**
 * `work`, or a refusal that speaks of `seconds` once those `left` of them are over; the library's own time limit does not
 * reach into a drawing.
 */
async function inTime<T>(
  work: Promise<Outcome<T>>,
  name: string,
  seconds = SLOWEST_S,
  left = seconds,
): Promise<Outcome<T>> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<Outcome<T>>((resolve) => {
    timer = setTimeout(() => resolve(tooSlow(name, seconds)), left * 1000);
  });
  try {
    return await Promise.race([work, late]);
  } finally {
    clearTimeout(timer);
  }
}

const open = (bytes: Uint8Array): Sharp =>
  sharp(bytes, { limitInputPixels: LIMITS.pixels, failOn: 'error', sequentialRead: true });

/** A trial in this very process: it is refused in time, though the library draws on until it is done. */
const trialHere: DrawingTrial = async (svg, seconds) => {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<'late'>((resolve) => {
    timer = setTimeout(() => resolve('late'), seconds * 1000);
  });
  try {
    return await Promise.race([drawSvg(svg), late]);
  } finally {
    clearTimeout(timer);
  }
};

const isWhole = (window: SvgWindow, units: { readonly width: number; readonly height: number }): boolean =>
  window.x === 0 && window.y === 0 && window.width === units.width && window.height === units.height;

function resolutionOf(
  bytes: Uint8Array,
  type: ArtMediaType,
  exif: Uint8Array | undefined,
): Resolution | null {
  const own =
    type === 'image/png'
      ? pngResolution(bytes)
      : type === 'image/jpeg'
        ? jfifResolution(bytes)
        : type === 'image/tiff'
          ? tiffResolution(bytes)
          : null;
  return own ?? (exif && exif.length > 0 ? exifResolution(exif) : null);
}

/** Exif orientations that swap rows and columns: 5 to 8. */
const turned = (metadata: Metadata) => (metadata.orientation ?? 1) >= 5;

async function header(bytes: Uint8Array, name: string, type: ArtMediaType): Promise<Outcome<Metadata>> {
  let metadata: Metadata;
  try {
    metadata = await sharp(bytes, { limitInputPixels: false, failOn: 'error' }).metadata();
  } catch {
    return damaged(name, KIND_NAMES[type]);
  }
  const { width, height } = metadata;
  if (width * height > LIMITS.pixels || width > LIMITS.side || height > LIMITS.side)
    return tooLarge(name, width, height);
  return done(metadata);
}

/** Pictures embedded in a drawing count too: a small file may unpack to a very large one. */
async function embeddedInBounds(scan: SvgScan, name: string): Promise<Outcome<void>> {
  let points = 0;
  for (const base64 of scan.embedded) {
    try {
      const { width, height } = await sharp(Buffer.from(base64, 'base64'), {
        limitInputPixels: false,
      }).metadata();
      points += width * height;
    } catch {
      return drawingTrouble.pictureDamaged(name);
    }
    if (points > LIMITS.embeddedPixels)
      return drawingTrouble.picturesTooLarge(name, LIMITS.embeddedPixels / 1e6);
  }
  return done(undefined);
}

function textOf(bytes: Uint8Array, name: string): Outcome<string> {
  const start = Buffer.from(bytes.subarray(0, 200)).toString('latin1');
  const stated =
    /^\s*(?:\u00ef\u00bb\u00bf)?<\?xml[^>]*encoding\s*=\s*["']([\w.:-]+)["']/.exec(start)?.[1] ?? 'utf-8';
  try {
    return done(new TextDecoder(stated, { fatal: true }).decode(bytes));
  } catch {
    return drawingTrouble.otherEncoding(name, stated);
  }
}

/**
 * Pictures by sharp (libvips). Drawings are read by our own scan first, drawn once to see that they can be
 * drawn in time, and handed to the library only as buffers: it then opens no other file.
 */
export function sharpCodec(
  options: { readonly trial?: DrawingTrial; readonly pdf?: PdfReader } = {},
): ImageCodec {
  const tryOut = options.trial ?? trialHere;

  /** Layers of a PDF: first small, in little time, so that what never ends ends soon; then as films need them. */
  async function pdfLayers(bytes: Uint8Array, name: string): Promise<Outcome<ArtLayer[]>> {
    const { pdf } = options;
    if (!pdf) throw new Error('A PDF is read in a process of its own: none was named.');
    const read = await pdf({ pdf: bytes, name, dpi: PDF_DPI }, SLOWEST_PDF_TRIAL_S, SLOWEST_PDF_S).catch(
      () => null,
    );
    if (read === 'late') return tooSlow(name, SLOWEST_PDF_TRIAL_S);
    if (read === null) return artTrouble.pdfDamaged(name);
    if (!('layers' in read)) return { ...read, ok: false, kind: 'input' };
    return done(read.layers.map(({ name: layer, hidden, png }) => ({ name: layer, hidden, bytes: png })));
  }
  /** Drawings already looked at, by the very bytes handed over; films ask for many windows of one drawing. */
  const drawings = new WeakMap<Uint8Array, Promise<Outcome<Drawing>>>();

  async function draw(drawing: Drawing, window: SvgWindow): Promise<Picture> {
    const picture = await drawSvg(Buffer.from(framed(drawing.scan, drawing.size, window)));
    if (picture.width !== window.outWidth || picture.height !== window.outHeight)
      throw new Error(
        `Asked for ${window.outWidth} × ${window.outHeight}, got ${picture.width} × ${picture.height}.`,
      );
    return picture;
  }

  async function readDrawing(bytes: Uint8Array, name: string): Promise<Outcome<Drawing>> {
    const started = performance.now();
    const mb = LIMITS.svgBytes / 1048576;
    if (bytes.length > LIMITS.svgBytes) return drawingTrouble.tooLarge(name, mb);
    const text = textOf(bytes, name);
    if (!text.ok) return text;
    const scan = scanSvg(text.value, name);
    if (!scan.ok) return scan;
    const size = svgSize(scan.value, name);
    if (!size.ok) return size;
    const inBounds = await embeddedInBounds(scan.value, name);
    if (!inBounds.ok) return inBounds;
    const units = unitsOf(size.value);
    let tried: Picture | 'late';
    const k = TRIAL_SIDE / Math.max(units.width, units.height);
    const trial = {
      x: 0,
      y: 0,
      ...units,
      outWidth: Math.max(1, Math.round(units.width * k)),
      outHeight: Math.max(1, Math.round(units.height * k)),
    };
    try {
      tried = await tryOut(Buffer.from(framed(scan.value, size.value, trial)), SLOWEST_S);
      if (tried === 'late') return tooSlow(name, SLOWEST_S);
      if (tried.width !== trial.outWidth || tried.height !== trial.outHeight) return damaged(name, 'SVG');
    } catch {
      return damaged(name, 'SVG');
    }
    const tookS = (performance.now() - started) / 1000;
    return done({ scan: scan.value, size: size.value, tookS, trial: tried });
  }

  function drawingOf(bytes: Uint8Array, name: string): Promise<Outcome<Drawing>> {
    let drawing = drawings.get(bytes);
    if (!drawing) {
      drawing = readDrawing(bytes, name);
      drawings.set(bytes, drawing);
    }
    return drawing;
  }

  function kindOf(bytes: Uint8Array, name: string): Outcome<ArtMediaType> {
    if (bytes.length > LIMITS.bytes) return artTrouble.tooLarge(name, LIMITS.bytes / 1048576);
    return sniff(bytes, name);
  }

  async function decode(bytes: Uint8Array, name: string, maxSidePx?: number): Promise<Outcome<Picture>> {
    const kind = kindOf(bytes, name);
    if (!kind.ok) return kind;
    if (kind.value === 'image/svg+xml') throw new Error('A drawing is rasterised, not decoded.');
    const read = await header(bytes, name, kind.value);
    if (!read.ok) return read;
    let image = open(bytes).autoOrient();
    // A triangle filter never overshoots, so flat colours stay the colours they are.
    if (maxSidePx !== undefined)
      image = image.resize(maxSidePx, maxSidePx, {
        fit: 'inside',
        withoutEnlargement: true,
        kernel: 'linear',
      });
    const work = pixelsOf(image.timeout({ seconds: SLOWEST_S })).then(done, () =>
      damaged(name, KIND_NAMES[kind.value]),
    );
    return inTime(work, name);
  }

  /** A layer's picture, of no other kind than OpenRaster allows. */
  async function decodePng(bytes: Uint8Array, name: string): Promise<Outcome<Picture>> {
    const kind = kindOf(bytes, name);
    if (!kind.ok) return kind;
    return kind.value === 'image/png' ? decode(bytes, name) : damaged(name, 'PNG');
  }

  return {
    async probe(bytes, name): Promise<Outcome<ArtProbe>> {
      const kind = kindOf(bytes, name);
      if (!kind.ok) return kind;
      if (kind.value === 'image/svg+xml') {
        const drawing = await drawingOf(bytes, name);
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
      const read = await header(bytes, name, kind.value);
      if (!read.ok) return read;
      const metadata = read.value;
      const swap = turned(metadata);
      const found = resolutionOf(bytes, kind.value, metadata.exif);
      const width = found ? metadata.width / found.across : 0;
      const height = found ? metadata.height / found.down : 0;
      return done({
        mediaType: kind.value,
        widthPx: swap ? metadata.height : metadata.width,
        heightPx: swap ? metadata.width : metadata.height,
        stated: found ? { width: swap ? height : width, height: swap ? width : height } : null,
        alpha: metadata.hasAlpha,
        vector: false,
      });
    },

    decode,

    async layers(bytes, name): Promise<Outcome<readonly ArtLayer[]>> {
      if (bytes.length > LIMITS.bytes) return kindOf(bytes, name) as Outcome<never>;
      if (isPdf(bytes)) return pdfLayers(bytes, name);
      if (isOpenRaster(bytes)) return inTime(openRasterLayers(bytes, name, decodePng), name, SLOWEST_ORA_S);
      const kind = kindOf(bytes, name);
      if (!kind.ok) return kind;
      if (kind.value !== 'image/svg+xml') return done([]);
      const drawing = await drawingOf(bytes, name);
      return drawing.ok ? svgLayers(drawing.value.scan, name) : drawing;
    },

    async rasterise(bytes, name, window): Promise<Outcome<Picture>> {
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
      const drawing = await drawingOf(bytes, name);
      if (!drawing.ok) return drawing;
      const { trial, size, tookS } = drawing.value;
      if (trial && isWhole(window, unitsOf(size)) && trial.width === outWidth && trial.height === outHeight) {
        drawing.value.trial = null;
        return done(trial);
      }
      const work = draw(drawing.value, window).then(done, () => damaged(name, 'SVG'));
      if (!window.look) return inTime(work, name, SLOWEST_WINDOW_S);
      return inTime(work, name, SLOWEST_IMPORT_S, Math.max(LEAST_LOOK_S, SLOWEST_IMPORT_S - tookS));
    },

    async encodePng(picture, dpi) {
      return pngOfPicture(picture, dpi);
    },

    async encodeMaskPng(mask, dpi) {
      return pngOfMask(mask, dpi);
    },
  };
}
