import { join } from 'node:path';
import type { FileStore } from '../../core/ports/index.ts';
import { MOST_FONT_BYTES, type Typeface } from '../../core/text/index.ts';
import { done, type Outcome } from '../../core/units/index.ts';

/** The bytes of a typeface that comes with the program, from the folder of its fonts. */
export async function typefaceFiles(
  files: FileStore,
  dir: string,
  face: Typeface,
): Promise<Outcome<{ readonly name: string; readonly bytes: Uint8Array }[]>> {
  const read = [];
  for (const name of face.files) {
    const bytes = await files.read(join(dir, name), MOST_FONT_BYTES);
    if (!bytes.ok) return bytes;
    read.push({ name: face.name, bytes: bytes.value });
  }
  return done(read);
}
