import type { FaceLayout } from '../film/index.ts';
import type { FilmsPdfOptions } from './filmsPdf.ts';

/** separations.pdf: one composite page a face, a Separation colour space per ink, for a film house. */
export function separationsPdf(
  _layouts: readonly FaceLayout[],
  _options: FilmsPdfOptions,
): Promise<Uint8Array> {
  throw new Error('being written');
}
