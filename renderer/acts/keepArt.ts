import { hashOf } from '../../core/job/index.ts';
import { useStudio } from '../state/index.ts';
import { filer } from '../workers/index.ts';
import { loadPicture } from './openJob.ts';

/** Takes a picture's bytes into the open job and decodes it for the board. Its hash, or null when it can not be read. */
export async function keepArt(bytes: Uint8Array, name: string): Promise<string | null> {
  const hash = hashOf(bytes);
  await filer.setArt(hash, bytes);
  const known = new Map(useStudio.getState().art);
  known.set(hash, bytes);
  useStudio.setState({ art: known });
  if (useStudio.getState().pictures.has(hash)) return hash;
  return (await loadPicture(hash, bytes, name)) ? hash : null;
}
