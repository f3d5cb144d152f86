import type { BareInput, ClipInput, DropInput, DroppedSpeck } from './finishFace.ts';
import type { ImageCodec, Workers } from './ports/index.ts';
import type { Component, Mask } from './raster/index.ts';
import type { Abort } from './units/index.ts';

/**
 * `finishFace` for masks in shared memory, ink by ink and band by band on as many threads as there are. The art they were separated from
 * is let go meanwhile.
 */
export async function finishOnThreads(
  masks: readonly Mask[],
  printable: Mask,
  smallestPx: number,
  kept: readonly boolean[],
  {
    workers,
    codec,
    abort,
  }: {
    readonly workers: Workers;
    readonly codec: Pick<ImageCodec, 'letGo'>;
    readonly abort?: Abort | undefined;
  },
): Promise<DroppedSpeck[]> {
  const clipping = masks.map((mask, i) =>
    workers.run<ClipInput, Component[]>(
      'clipInk',
      { mask, printable, smallestPx: kept[i] ? 0 : smallestPx },
      abort,
    ),
  );
  codec.letGo?.();
  const specks = await Promise.all(clipping);
  if (smallestPx <= 1 || masks.length === 0) return [];
  const band = Math.ceil(printable.height / (2 * workers.count));
  const starts = Array.from({ length: Math.ceil(printable.height / band) }, (_, k) => k * band);
  const holes = await Promise.all(
    starts.map((from) =>
      workers.run<BareInput, Component[]>(
        'bareSpecks',
        { masks, printable, smallestPx, from, to: Math.min(printable.height, from + band) },
        abort,
      ),
    ),
  );
  if (specks.every((pieces) => pieces.length === 0) && holes.every((pieces) => pieces.length === 0))
    return [];
  return workers.run<DropInput, DroppedSpeck[]>(
    'dropFaceSpecks',
    { masks, printable, smallestPx, kept, specks, holes: holes.flat() },
    abort,
  );
}
