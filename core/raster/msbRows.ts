import type { Mask } from './mask.ts';

/** Each byte with its bits in the opposite order. */
const TURNED = new Uint8Array(256).map((_, byte) => {
  let turned = 0;
  for (let bit = 0; bit < 8; bit++) if ((byte >> bit) & 1) turned |= 128 >> bit;
  return turned;
});

/**
 * The mask as PNG, PBM, TIFF and PDF expect one-bit rows: most significant bit first, each row padded with zeros to a whole
 * byte, 1 where ink is. Byte order of the machine does not matter.
 */
export function msbRows(mask: Mask): Uint8Array {
  const bytes = (mask.width + 7) >>> 3;
  const out = new Uint8Array(bytes * mask.height);
  for (let y = 0, at = 0; y < mask.height; y++) {
    const row = y * mask.stride;
    for (let b = 0; b < bytes; b++)
      out[at++] = TURNED[(mask.data[row + (b >>> 2)]! >>> ((b & 3) * 8)) & 255]!;
  }
  return out;
}
