import type { default as Sharp } from 'sharp';

let read: Promise<typeof Sharp> | undefined;

/**
 * sharp, read when it is first asked for: it takes a tenth of a second, which a command has while another process tries its drawing. A file
 * that was written again under its old name is read again, and the library's own threads, two, do not compete with ours.
 */
export function pictureLibrary(): Promise<typeof Sharp> {
  read ??= import('sharp').then(({ default: sharp }) => {
    sharp.cache(false);
    sharp.concurrency(2);
    return sharp;
  });
  return read;
}
