import type { Art } from './job/index.ts';
import type { ImageCodec } from './ports/index.ts';
import type { Picture } from './raster/index.ts';
import { isGrainy } from './separate/index.ts';
import { drawnSize, pictureWindow, type TilePlan } from './separateFace.ts';
import { type Abort, done, type Outcome } from './units/index.ts';

/** The art's bytes by hash, and who decodes them. */
export interface ArtSource {
  readonly art: ReadonlyMap<string, Uint8Array>;
  readonly codec: ImageCodec;
  readonly abort?: Abort | undefined;
}

/** The size a piece is drawn at, in points, and windows of it. */
export interface ArtWindows {
  readonly width: number;
  readonly height: number;
  /** See `isGrainy`; left out: drawn art. */
  readonly grainy?: boolean;
  readonly window: (plan: TilePlan) => Promise<Outcome<Picture>>;
}

/** The windows of a piece for a raster of `dpi`: cut from its decoded picture, or drawn one by one where it is an SVG. */
export async function artWindows(piece: Art, dpi: number, source: ArtSource): Promise<Outcome<ArtWindows>> {
  const bytes = source.art.get(piece.hash);
  if (!bytes) throw new Error(`The bytes of “${piece.name}” were not handed over.`);
  const size = drawnSize(piece, dpi);
  if (piece.mediaType !== 'image/svg+xml') {
    const side = Math.max(size.width, size.height);
    const smaller = side < Math.max(piece.widthPx, piece.heightPx);
    const decoded = await source.codec.decode(bytes, piece.name, smaller ? side : undefined, source.abort);
    if (!decoded.ok) return decoded;
    const picture = decoded.value;
    return done({
      width: picture.width as number,
      height: picture.height as number,
      grainy: isGrainy(picture),
      window: async (plan) => done(pictureWindow(picture, plan.window)),
    });
  }
  const across = piece.widthPx / size.width;
  const down = piece.heightPx / size.height;
  return done({
    ...size,
    window: ({ window }) =>
      source.codec.rasterise(
        bytes,
        piece.name,
        {
          x: window.x * across,
          y: window.y * down,
          width: window.width * across,
          height: window.height * down,
          outWidth: window.width,
          outHeight: window.height,
        },
        source.abort,
      ),
  });
}
