import type { Mask, Picture } from '../../core/raster/index.ts';
import { deflate } from '../../core/raster/index.ts';
import { MM_PER_INCH } from '../../core/units/index.ts';

/**
 * PNG (ISO/IEC 15948) written here and not by the codec's library, so that the bytes are the same on every platform.
 */
const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/** CRC-32 of ISO/IEC 15948 annex D, by table. */
const CRC = Uint32Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let k = 0; k < 8; k++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c >>> 0;
});

function crc32(bytes: Uint8Array): number {
  let c = 0xffffffff;
  for (let i = 0; i < bytes.length; i++) c = (CRC[(c ^ (bytes[i] as number)) & 0xff] as number) ^ (c >>> 8);
  return (c ^ 0xffffffff) >>> 0;
}

function chunk(type: string, body: Uint8Array): Uint8Array {
  const out = new Uint8Array(body.length + 12);
  const data = new DataView(out.buffer);
  data.setUint32(0, body.length);
  for (let i = 0; i < 4; i++) out[4 + i] = type.charCodeAt(i);
  out.set(body, 8);
  data.setUint32(body.length + 8, crc32(out.subarray(4, body.length + 8)));
  return out;
}

function file(width: number, height: number, depth: number, colour: number, dpi: number, rows: Uint8Array) {
  const header = new Uint8Array(13);
  const head = new DataView(header.buffer);
  head.setUint32(0, width);
  head.setUint32(4, height);
  header[8] = depth;
  header[9] = colour;
  const density = new Uint8Array(9);
  const perMetre = Math.round((dpi / MM_PER_INCH) * 1000);
  new DataView(density.buffer).setUint32(0, perMetre);
  new DataView(density.buffer).setUint32(4, perMetre);
  density[8] = 1;
  const parts = [
    Uint8Array.from(SIGNATURE),
    chunk('IHDR', header),
    // Perceptual intent: the picture is sRGB.
    ...(colour === 6 ? [chunk('sRGB', Uint8Array.of(0))] : []),
    chunk('pHYs', density),
    chunk('IDAT', deflate(rows)),
    chunk('IEND', new Uint8Array(0)),
  ];
  const out = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}

/** sRGB with alpha, eight bits; every row filtered by the point to its left, which suits flat colour. */
export function pngOfPicture(picture: Picture, dpi: number): Uint8Array {
  const { width, height, data } = picture;
  const rowBytes = width * 4;
  const rows = new Uint8Array((rowBytes + 1) * height);
  for (let y = 0; y < height; y++) {
    const from = y * rowBytes;
    const to = y * (rowBytes + 1);
    rows[to] = 1;
    for (let i = 0; i < rowBytes; i++)
      rows[to + 1 + i] = (data[from + i] as number) - (i < 4 ? 0 : (data[from + i - 4] as number));
  }
  return file(width, height, 8, 6, dpi, rows);
}

/** Each byte with its bits in the other order: a mask keeps its first point lowest, PNG highest. */
const REVERSED = Uint8Array.from({ length: 256 }, (_, n) => {
  let out = 0;
  for (let bit = 0; bit < 8; bit++) if (n & (1 << bit)) out |= 0x80 >> bit;
  return out;
});

/** One-bit grey: black (0) where the mask has ink. */
export function pngOfMask(mask: Mask, dpi: number): Uint8Array {
  const { width, height, stride, data } = mask;
  const rowBytes = (width + 7) >>> 3;
  const rows = new Uint8Array((rowBytes + 1) * height);
  for (let y = 0; y < height; y++) {
    const to = y * (rowBytes + 1) + 1;
    for (let i = 0; i < rowBytes; i++) {
      const word = data[y * stride + (i >>> 2)] as number;
      rows[to + i] = ~(REVERSED[(word >>> ((i & 3) * 8)) & 0xff] as number);
    }
  }
  return file(width, height, 1, 0, dpi, rows);
}
