import { createHash } from 'node:crypto';
import { inflateRawSync } from 'node:zlib';
import { type JobFile, type Unpacking, unpackJob } from '../../core/job/index.ts';
import type { Outcome } from '../../core/units/index.ts';

/** SHA-256 of the bytes in lower-case hex, by Node: the name art goes by. */
export const hashOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** By Node's zlib and OpenSSL: in JavaScript the same takes a command that opens one job a quarter of a second more. */
export const nodeUnpacking: Unpacking = {
  inflate(packed, size) {
    // One chunk holds it all, with room to see that it ends there; more than the zip's directory said is an error.
    const { buffer, byteOffset, length } = inflateRawSync(packed, {
      chunkSize: Math.max(64, size + 1),
      maxOutputLength: Math.max(1, size),
    });
    return new Uint8Array(buffer, byteOffset, length);
  },
  hashOf,
};

/** `unpackJob` on Node. */
export const unpackJobFile = (bytes: Uint8Array): Outcome<JobFile> => unpackJob(bytes, nodeUnpacking);
