import { deflateFast } from './kernels/deflateFast.ts';
import { deflatePlain } from './kernels/deflatePlain.ts';
import { kernels } from './kernels/load.ts';

/**
 * Bytes in the zlib format (RFC 1950 and 1951), as streams of a PDF hold them. Our own, since the system's zlib gives other
 * bytes on other machines, and plain JavaScript takes longer to pack a picture than all work that made it.
 */
export function deflate(bytes: Uint8Array): Uint8Array {
  const fast = kernels();
  return fast ? deflateFast(fast, bytes) : deflatePlain(bytes);
}
