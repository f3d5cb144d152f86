import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { inflateSync } from 'fflate';

/** SHA-256 of the bytes, lower-case hex: the name art goes by. */
export const hashOf = (bytes: Uint8Array): string => bytesToHex(sha256(bytes));

/** What a job file is opened with. Node has both natively, and needs neither to be compiled first. */
export interface Unpacking {
  /** Raw deflate (RFC 1951) unpacked to `size` bytes at most; throws where it is damaged. */
  inflate(packed: Uint8Array, size: number): Uint8Array;
  /** SHA-256 in lower-case hex. */
  hashOf(bytes: Uint8Array): string;
}

/** In plain JavaScript, for wherever there is nothing else. */
export const plainUnpacking: Unpacking = {
  inflate: (packed, size) => inflateSync(packed, { out: new Uint8Array(size) }),
  hashOf,
};
