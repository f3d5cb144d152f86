import type { Metadata } from 'sharp';
import type { ArtMediaType, ArtProbe } from '../../core/ports/index.ts';
import type { Picture } from '../../core/raster/index.ts';
import { artTrouble } from '../../core/sentences/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { inTime, KIND_NAMES, kindOf, LIMITS, SLOWEST_S } from './artLimits.ts';
import { pixelsOf } from './drawSvg.ts';
import { pictureLibrary } from './pictureLibrary.ts';
import {
  exifResolution,
  jfifResolution,
  pngResolution,
  type Resolution,
  tiffResolution,
} from './resolution.ts';

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
  const sharp = await pictureLibrary();
  let metadata: Metadata;
  try {
    metadata = await sharp(bytes, { limitInputPixels: false, failOn: 'error' }).metadata();
  } catch {
    return artTrouble.damaged(name, KIND_NAMES[type]);
  }
  const { width, height } = metadata;
  if (width * height > LIMITS.pixels || width > LIMITS.side || height > LIMITS.side)
    return artTrouble.tooManyPoints(name, width, height, LIMITS.pixels / 1e6);
  return done(metadata);
}

/** Size, printed size and transparency of a picture, from its header alone. */
export async function probePicture(
  bytes: Uint8Array,
  name: string,
  type: ArtMediaType,
): Promise<Outcome<ArtProbe>> {
  const read = await header(bytes, name, type);
  if (!read.ok) return read;
  const metadata = read.value;
  const swap = turned(metadata);
  const found = resolutionOf(bytes, type, metadata.exif);
  const width = found ? metadata.width / found.across : 0;
  const height = found ? metadata.height / found.down : 0;
  return done({
    mediaType: type,
    widthPx: swap ? metadata.height : metadata.width,
    heightPx: swap ? metadata.width : metadata.height,
    stated: found ? { width: swap ? height : width, height: swap ? width : height } : null,
    alpha: metadata.hasAlpha,
    vector: false,
  });
}

/** A picture's points, turned as it says, its longer side at most `maxSidePx`. */
export async function decode(bytes: Uint8Array, name: string, maxSidePx?: number): Promise<Outcome<Picture>> {
  const kind = kindOf(bytes, name);
  if (!kind.ok) return kind;
  if (kind.value === 'image/svg+xml') throw new Error('A drawing is rasterised, not decoded.');
  const read = await header(bytes, name, kind.value);
  if (!read.ok) return read;
  const sharp = await pictureLibrary();
  let image = sharp(bytes, {
    limitInputPixels: LIMITS.pixels,
    failOn: 'error',
    sequentialRead: true,
  }).autoOrient();
  // A triangle filter never overshoots, so flat colours stay the colours they are.
  if (maxSidePx !== undefined)
    image = image.resize(maxSidePx, maxSidePx, {
      fit: 'inside',
      withoutEnlargement: true,
      kernel: 'linear',
    });
  const work = pixelsOf(image.timeout({ seconds: SLOWEST_S })).then(done, () =>
    artTrouble.damaged(name, KIND_NAMES[kind.value]),
  );
  return inTime(work, name);
}

/** A layer's picture, of no other kind than OpenRaster allows. */
export async function decodePng(bytes: Uint8Array, name: string): Promise<Outcome<Picture>> {
  const kind = kindOf(bytes, name);
  if (!kind.ok) return kind;
  return kind.value === 'image/png' ? decode(bytes, name) : artTrouble.damaged(name, 'PNG');
}
