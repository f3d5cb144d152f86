import type { Sharp } from 'sharp';
import type { Picture } from '../../core/raster/index.ts';
import { pictureLibrary } from './pictureLibrary.ts';
import { SVG_DENSITY } from './svgSize.ts';

/** Points of one window of a drawing. */
export const MOST_WINDOW_POINTS = 120_000_000;

/** Straight-alpha sRGB, eight bits a channel. */
export async function pixelsOf(image: Sharp): Promise<Picture> {
  const { data, info } = await image
    .toColourspace('srgb')
    .ensureAlpha()
    .raw({ depth: 'uchar' })
    .toBuffer({ resolveWithObject: true });
  if (info.channels !== 4) throw new Error(`Expected four channels, got ${info.channels}.`);
  // A plain array that starts on a word, so that kernels may read points as words.
  const aligned = data.byteOffset % 4 === 0;
  const plain = aligned ? new Uint8Array(data.buffer, data.byteOffset, data.length) : Uint8Array.from(data);
  return { width: info.width, height: info.height, data: plain };
}

/** Draws an SVG as `framed` made it. It goes to the library as a buffer: then no other file is opened. */
export async function drawSvg(svg: Uint8Array): Promise<Picture> {
  const sharp = await pictureLibrary();
  return pixelsOf(
    sharp(svg, { density: SVG_DENSITY, limitInputPixels: MOST_WINDOW_POINTS, unlimited: true }),
  );
}
