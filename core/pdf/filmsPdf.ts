import type { FaceLayout } from '../film/index.ts';
import type { Abort, Progress } from '../units/index.ts';

export interface FilmsPdfOptions {
  readonly jobName: string;
  /** zlib-wrapped deflate, the same bytes everywhere. */
  readonly deflate: (bytes: Uint8Array) => Uint8Array;
  readonly progress?: Progress;
  readonly abort?: Abort;
}

/** films.pdf: one page a sheet, faces in the order given. */
export function filmsPdf(_layouts: readonly FaceLayout[], _options: FilmsPdfOptions): Promise<Uint8Array> {
  throw new Error('being written');
}
