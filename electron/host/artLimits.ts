import type { ArtMediaType } from '../../core/ports/index.ts';
import { artTrouble } from '../../core/sentences/index.ts';
import type { Outcome } from '../../core/units/index.ts';
import { sniff } from './sniff.ts';

/** What a piece of art may be. Bounds keep the worst input within 10 s and 1.5 GB. */
export const LIMITS = {
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
export const SLOWEST_S = 7;
/** What people call them. */
export const KIND_NAMES: Readonly<Record<ArtMediaType, string>> = {
  'image/png': 'PNG',
  'image/jpeg': 'JPEG',
  'image/webp': 'WebP',
  'image/tiff': 'TIFF',
  'image/avif': 'AVIF',
  'image/svg+xml': 'SVG',
};

/** What kind of art the bytes are, or a refusal. */
export function kindOf(bytes: Uint8Array, name: string): Outcome<ArtMediaType> {
  if (bytes.length > LIMITS.bytes) return artTrouble.tooLarge(name, LIMITS.bytes / 1048576);
  return sniff(bytes, name);
}

/**
 * `work`, or a refusal that speaks of `seconds` once those `left` of them are over; the library's own time limit does not
 * reach into a drawing.
 */
export async function inTime<T>(
  work: Promise<Outcome<T>>,
  name: string,
  seconds = SLOWEST_S,
  left = seconds,
): Promise<Outcome<T>> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<Outcome<T>>((resolve) => {
    timer = setTimeout(() => resolve(artTrouble.tooSlow(name, seconds)), left * 1000);
  });
  try {
    return await Promise.race([work, late]);
  } finally {
    clearTimeout(timer);
  }
}
