import type { Picture } from './raster/index.ts';

/**
 * Puts one picture after another into the same shared memory, so that threads read it where it lies: a picture sent to a thread
 * is copied to new memory, and first touching that takes as long as the work on it. What it gave before is lost. A picture that lies in
 * shared memory stays where it is.
 */
export function sharedWindow(): (picture: Picture) => Picture {
  let room: SharedArrayBuffer | undefined;
  return ({ width, height, data }) => {
    if (data.buffer instanceof SharedArrayBuffer) return { width, height, data };
    if (!room || room.byteLength < data.byteLength) room = new SharedArrayBuffer(data.byteLength);
    const shared = new Uint8Array(room, 0, data.byteLength);
    shared.set(data);
    return { width, height, data: shared };
  };
}
