import type { FaceLayout } from '../film/index.ts';
import type { FilmsPdfOptions } from './filmsPdf.ts';

/** assembly.pdf: plain paper; how the sheets of each film join. */
export function assemblyPdf(_layouts: readonly FaceLayout[], _options: FilmsPdfOptions): Promise<Uint8Array> {
  throw new Error('being written');
}
