import type { ArtSource } from './artWindows.ts';
import type { Face } from './deck/index.ts';
import type { Job } from './job/index.ts';

/**
 * Has the codec look at the drawings of these faces at once. Each is tried in a process of its own before anything is made of it,
 * which no other work shortens: whoever then asks for a window finds it tried, or hears what is wrong with it.
 */
export function tryDrawings({
  job,
  faces,
  art,
  codec,
}: Pick<ArtSource, 'art' | 'codec'> & { readonly job: Job; readonly faces: readonly Face[] }): void {
  for (const face of faces)
    for (const { hash, hidden, mediaType, name } of job.faces[face].art) {
      const bytes = art.get(hash);
      if (!hidden && mediaType === 'image/svg+xml' && bytes) codec.tryDrawing?.(bytes, name);
    }
}
