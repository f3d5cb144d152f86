import type { SheetPicture, Stencil } from './film/index.ts';
import type { Workers } from './ports/index.ts';
import type { Abort } from './units/index.ts';

/**
 * Every sheet's picture as films.pdf holds it, in the order given, packed by the threads. Only as many are asked for at once as
 * there are threads, so that work that others wait for need not stand behind all of them.
 */
export async function packSheets(
  pictures: readonly SheetPicture[],
  { workers, abort }: { readonly workers: Workers; readonly abort?: Abort | undefined },
  packed: (count: number) => void = () => {},
): Promise<Stencil[]> {
  const out: Stencil[] = [];
  let next = 0;
  let count = 0;
  const lane = async () => {
    for (let i = next++; i < pictures.length; i = next++) {
      out[i] = await workers.run<SheetPicture, Stencil>('sheetStencil', pictures[i] as SheetPicture, abort);
      packed(++count);
    }
  };
  await Promise.all(Array.from({ length: workers.count }, lane));
  return out;
}
