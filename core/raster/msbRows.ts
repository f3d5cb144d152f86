import { type Mask, signedWords } from './mask.ts';

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
  const words = signedWords(mask);
  const whole = bytes >>> 2;
  for (let y = 0, at = 0; y < mask.height; y++) {
    const row = y * mask.stride;
    for (let w = 0; w < whole; w++, at += 4) {
      const word = words[row + w]!;
      // Blank stretches are zeros already.
      if (word === 0) continue;
      out[at] = TURNED[word & 255]!;
      out[at + 1] = TURNED[(word >>> 8) & 255]!;
      out[at + 2] = TURNED[(word >>> 16) & 255]!;
      out[at + 3] = TURNED[word >>> 24]!;
    }
    for (let b = 4 * whole; b < bytes; b++)
      out[at++] = TURNED[(words[row + whole]! >>> ((b & 3) * 8)) & 255]!;
  }
  return out;
}
