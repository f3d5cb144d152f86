import { zlibSync } from 'fflate';
import type { Deflate } from './ports/index.ts';

/** In plain code and not by the system's own zlib, whose bytes differ from version to version. */
export const deflate: Deflate = (bytes) => zlibSync(bytes, { level: 6 });
