import type { ClipInput, DropInput, DroppedSpeck } from './finishFace.ts';
import type { Workers } from './ports/index.ts';
import type { Component, Mask } from './raster/index.ts';
import type { Abort } from './units/index.ts';

/** `finishFace` for masks in shared memory, ink by ink on as many threads as there are. */
export async function finishOnThreads(
  masks: readonly Mask[],
  printable: Mask,
  smallestPx: number,
  kept: readonly boolean[],
  { workers, abort }: { readonly workers: Workers; readonly abort?: Abort | undefined },
): Promise<DroppedSpeck[]> {
  const specks = await Promise.all(
    masks.map((mask, i) =>
      workers.run<ClipInput, Component[]>(
        'clipInk',
        { mask, printable, smallestPx: kept[i] ? 0 : smallestPx },
        abort,
      ),
    ),
  );
  if (smallestPx <= 1 || masks.length === 0) return [];
  return workers.run<DropInput, DroppedSpeck[]>(
    'dropFaceSpecks',
    { masks, printable, smallestPx, kept, specks },
    abort,
  );
}
