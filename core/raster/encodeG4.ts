import { encodeG4Fast } from './kernels/encodeG4Fast.ts';
import { encodeG4Plain } from './kernels/encodeG4Plain.ts';
import { kernels } from './kernels/load.ts';
import type { Mask } from './mask.ts';

/**
 * The mask as a CCITT Group 4 image (ITU-T T.6), ink as black, ended by EOFB and zero bits up to a byte: what PDF calls
 * CCITTFaxDecode with K −1, Columns = width, Rows = height, BlackIs1 false, and TIFF compression 4 with white as 0.
 */
export function encodeG4(mask: Mask): Uint8Array {
  const fast = mask.width > 0 ? kernels() : null;
  return fast ? encodeG4Fast(fast, mask) : encodeG4Plain(mask);
}
