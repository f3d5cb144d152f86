import type { ArtMediaType } from '../../core/ports/index.ts';
import { artTrouble } from '../../core/sentences/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';
import { isOpenRaster } from './openRaster.ts';

const ascii = (bytes: Uint8Array, from: number, to: number): string =>
  String.fromCharCode(...bytes.subarray(from, Math.min(to, bytes.length)));

/** Kinds people hand over that no film can be made from, so that the refusal can name them. */
const OTHERS: readonly (readonly [start: string, what: string])[] = [
  ['GIF8', 'a GIF picture'],
  ['BM', 'a BMP picture'],
  ['%PDF', 'a PDF document'],
  ['%!PS', 'a PostScript document'],
  ['8BPS', 'a layered picture of a picture editor'],
  ['PK\u0003\u0004', 'a zip archive'],
  ['\u001f\u008b', 'a compressed file'],
];

/** A PDF's mark stands in its first bytes (ISO 32000-1, 7.5.2); programs put up to a kilobyte before it. */
export const isPdf = (bytes: Uint8Array): boolean => ascii(bytes, 0, 1024).includes('%PDF-');

/** Kinds of file that are always in layers: only a drawing may be one or many. */
export const comesInLayers = (bytes: Uint8Array): boolean => isPdf(bytes) || isOpenRaster(bytes);

/** UTF-16 text is told apart so that the refusal can say what to do. */
const isUtf16 = (bytes: Uint8Array) =>
  (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);

/** What a file is by its first bytes; its name plays no part. SVG may begin with an XML prologue and comments. */
export function sniff(bytes: Uint8Array, name: string): Outcome<ArtMediaType> {
  if (bytes.length === 0) return artTrouble.empty(name);
  if (ascii(bytes, 0, 8) === '\u0089PNG\r\n\u001a\n') return done('image/png');
  if (bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff) return done('image/jpeg');
  if (ascii(bytes, 0, 4) === 'RIFF' && ascii(bytes, 8, 12) === 'WEBP') return done('image/webp');
  const tiff = ascii(bytes, 0, 4);
  if (tiff === 'II*\0' || tiff === 'MM\0*' || tiff === 'II+\0' || tiff === 'MM\0+') return done('image/tiff');
  if (ascii(bytes, 4, 8) === 'ftyp') {
    const brands = ascii(bytes, 8, 64);
    if (/avi[fs]/.test(brands)) return done('image/avif');
    return artTrouble.filmOrCamera(name);
  }
  const start = ascii(bytes, 0, 4096).replace(/^\u00ef\u00bb\u00bf/, '');
  if (/^\s*</.test(start) && /<(?:[A-Za-z_][\w.-]*:)?svg[\s>/]/.test(start)) return done('image/svg+xml');
  // A long prologue: comments and licences may stand before the root.
  if (/^\s*<(\?xml|!--|!DOCTYPE\s+svg)/i.test(start)) return done('image/svg+xml');
  if (isUtf16(bytes)) return artTrouble.utf16(name);
  const other = OTHERS.find(([sign]) => start.startsWith(sign));
  if (other) return artTrouble.otherKind(name, other[1]);
  return artTrouble.unknown(name);
}
