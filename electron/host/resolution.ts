import { MM_PER_INCH } from '../../core/units/index.ts';

/** Points per mm along the stored rows and down them. */
export interface Resolution {
  readonly across: number;
  readonly down: number;
}

const view = (bytes: Uint8Array) => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
/**
 * Less than 1 or more than 100000 dpi is a slip of whoever wrote the file; exactly one point per mm is what common
 * libraries write when they know none.
 */
const sensible = (perMm: number) =>
  perMm >= 1 / MM_PER_INCH && perMm <= 100_000 / MM_PER_INCH && Math.abs(perMm - 1) > 1e-6;
const resolution = (across: number, down: number): Resolution | null =>
  sensible(across) && sensible(down) ? { across, down } : null;

/** PNG (ISO/IEC 15948) pHYs: points per metre, unit 1. Unit 0 states only a ratio. */
export function pngResolution(bytes: Uint8Array): Resolution | null {
  const data = view(bytes);
  for (let at = 8; at + 12 <= bytes.length; ) {
    const length = data.getUint32(at);
    const type = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    if (type === 'IDAT' || type === 'IEND') return null;
    if (type === 'pHYs' && length === 9 && at + 17 <= bytes.length)
      return bytes[at + 16] === 1
        ? resolution(data.getUint32(at + 8) / 1000, data.getUint32(at + 12) / 1000)
        : null;
    at += 12 + length;
  }
  return null;
}

/** JFIF (ITU-T T.871) APP0: units 1 is per inch, 2 per cm; 0 states only a ratio. */
export function jfifResolution(bytes: Uint8Array): Resolution | null {
  const data = view(bytes);
  for (let at = 2; at + 18 <= bytes.length && bytes[at] === 0xff; ) {
    const marker = bytes[at + 1] as number;
    if (marker === 0xda) return null;
    if (marker === 0xe0 && String.fromCharCode(...bytes.subarray(at + 4, at + 8)) === 'JFIF') {
      const perMm = { 1: 1 / MM_PER_INCH, 2: 1 / 10 }[bytes[at + 11] as number];
      return perMm === undefined
        ? null
        : resolution(data.getUint16(at + 12) * perMm, data.getUint16(at + 14) * perMm);
    }
    at += 2 + data.getUint16(at + 2);
  }
  return null;
}

/** Bytes of a directory entry, and the tags looked at: TIFF 6.0, section 8; Exif uses the same. */
const ENTRY = 12;
const X_RESOLUTION = 282;
const Y_RESOLUTION = 283;
const RESOLUTION_UNIT = 296;

/** TIFF 6.0 tags of the first directory; also the payload of an Exif block. Unit 2 (the default) is per inch, 3 per cm. */
export function tiffResolution(bytes: Uint8Array): Resolution | null {
  if (bytes.length < 14) return null;
  const data = view(bytes);
  const little = bytes[0] === 0x49;
  if (data.getUint16(2, little) !== 42) return null;
  const directory = data.getUint32(4, little);
  if (directory + 2 > bytes.length) return null;
  const entries = data.getUint16(directory, little);
  const rational = (at: number): number => {
    const offset = data.getUint32(at + 8, little);
    if (offset + 8 > bytes.length) return 0;
    return data.getUint32(offset, little) / data.getUint32(offset + 4, little);
  };
  let across = 0;
  let down = 0;
  let unit = 2;
  for (let i = 0; i < entries; i++) {
    const at = directory + 2 + i * ENTRY;
    if (at + ENTRY > bytes.length) break;
    const tag = data.getUint16(at, little);
    if (tag === X_RESOLUTION) across = rational(at);
    else if (tag === Y_RESOLUTION) down = rational(at);
    else if (tag === RESOLUTION_UNIT) unit = data.getUint16(at + 8, little);
  }
  const perMm = { 2: 1 / MM_PER_INCH, 3: 1 / 10 }[unit];
  return perMm === undefined ? null : resolution(across * perMm, down * perMm);
}

/** An Exif block as it lies in JPEG, WebP and AVIF, with or without its `Exif\0\0`. */
export function exifResolution(block: Uint8Array): Resolution | null {
  const named = String.fromCharCode(...block.subarray(0, 4)) === 'Exif';
  return tiffResolution(named ? block.subarray(6) : block);
}
