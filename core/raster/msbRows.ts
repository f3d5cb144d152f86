import { kernels } from './kernels/load.ts';
import { msbRowsFast } from './kernels/msbRowsFast.ts';
import { msbRowsPlain } from './kernels/msbRowsPlain.ts';
import type { Mask } from './mask.ts';

/**
 * The mask as PNG, PBM, TIFF and PDF expect one-bit rows: most significant bit first, each row padded with bare points to a whole
 * byte. Ink is 1, or 0 where `inkIsZero`. Byte order of the machine does not matter.
 */
export function msbRows(mask: Mask, inkIsZero = false): Uint8Array {
  const bytes = (mask.width + 7) >>> 3;
  const out = new Uint8Array(bytes * mask.height);
  const flip = inkIsZero ? 255 : 0;
  const fast = kernels();
  if (fast) msbRowsFast(fast, mask, bytes, flip, out);
  else msbRowsPlain(mask, bytes, flip, out);
  return out;
}
