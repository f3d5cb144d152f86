import { createHash } from 'node:crypto';

/** The sum of a folder of files, names and bytes. */
export function filmSum(files: ReadonlyMap<string, Uint8Array>): string {
  const hash = createHash('sha256');
  for (const [name, bytes] of [...files].sort(([a], [b]) => (a < b ? -1 : 1)))
    hash.update(`${name} ${bytes.length} `).update(bytes);
  return hash.digest('hex');
}
