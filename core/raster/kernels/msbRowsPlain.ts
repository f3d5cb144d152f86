import { type Mask, signedWords } from '../mask.ts';

/** Each byte with its bits in the opposite order. */
const TURNED = new Uint8Array(256).map((_, byte) => {
  let turned = 0;
  for (let bit = 0; bit < 8; bit++) if ((byte >> bit) & 1) turned |= 128 >> bit;
  return turned;
});

/** The readable definition of `msbRows`: rows of `bytes` bytes into `out`, bits of `flip` inverted in each. */
export function msbRowsPlain(mask: Mask, bytes: number, flip: number, out: Uint8Array): void {
  const words = signedWords(mask);
  for (let y = 0, at = 0; y < mask.height; y++)
    for (let b = 0; b < bytes; b++) {
      const word = words[y * mask.stride + (b >>> 2)]!;
      out[at++] = TURNED[(word >>> ((b & 3) * 8)) & 255]! ^ flip;
    }
}
