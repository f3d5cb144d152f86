import { artWindows } from '../../core/artWindows.ts';
import type { Face } from '../../core/deck/index.ts';
import { growthOf } from '../../core/faceGrowth.ts';
import { faceRaster } from '../../core/faceRaster.ts';
import type { JobFile } from '../../core/job/index.ts';
import type { ImageCodec, SvgWindow } from '../../core/ports/index.ts';
import type { Picture } from '../../core/raster/index.ts';
import { planTiles } from '../../core/separateFace.ts';
import { done, type Outcome } from '../../core/units/index.ts';

const nameOf = (bytes: Uint8Array, { x, y, width, height, outWidth, outHeight }: SvgWindow): string =>
  [bytes.length, x, y, width, height, outWidth, outHeight].join(' ');

/** Memory that can be given back when it is no longer wanted, without waiting for the collector. The language's own library lags behind. */
type Room = ArrayBuffer & { resize(bytes: number): void };
const roomFor = (bytes: number): Room =>
  new (ArrayBuffer as unknown as new (bytes: number, options: { maxByteLength: number }) => Room)(bytes, {
    maxByteLength: bytes,
  });

/**
 * A codec that hands out the windows a face's films are separated from, decoded beforehand: the same ones, at the same
 * resolution, as are drawn else. Each is handed out once; whoever wants it copies it at once. Throws where it is
 * asked for another.
 */
export async function decodedArt(
  { job, art }: JobFile,
  face: Face,
  dpi: number,
  codec: ImageCodec,
): Promise<ImageCodec> {
  const held = new Map<string, Picture>();
  const keeping: ImageCodec = {
    ...codec,
    rasterise: async (bytes, name, window): Promise<Outcome<Picture>> => {
      const drawn = await codec.rasterise(bytes, name, window);
      if (!drawn.ok) return drawn;
      const data = new Uint8Array(roomFor(drawn.value.data.length));
      data.set(drawn.value.data);
      held.set(nameOf(bytes, window), { ...drawn.value, data });
      return drawn;
    },
  };
  const settings = job.faces[face];
  const { development, railMargin } = settings;
  const growth = growthOf(job, face);
  if (!growth.ok) throw new Error(growth.reason);
  const grid = { kind: 'film' as const, development, growth: growth.value, railMargin };
  const raster = faceRaster(job.deck, face, dpi, grid);
  for (const piece of settings.art.filter(({ hidden }) => !hidden)) {
    const windows = await artWindows(piece, dpi, { art, codec: keeping });
    if (!windows.ok) throw new Error(windows.reason);
    for (const plan of planTiles(raster, settings, piece, windows.value)) {
      const drawn = await windows.value.window(plan);
      if (!drawn.ok) throw new Error(drawn.reason);
    }
  }
  return {
    ...codec,
    rasterise: async (bytes, _, window) => {
      const name = nameOf(bytes, window);
      const picture = held.get(name);
      if (!picture) throw new Error(`Nobody decoded the window ${name}.`);
      held.delete(name);
      // The films' own threads are given a copy in shared memory before anything else happens.
      setImmediate(() => (picture.data.buffer as Room).resize(0));
      return done(picture);
    },
  };
}
