import { type FilmLayout, filmMask } from './film/index.ts';
import type { Workers } from './ports/index.ts';
import type { Mask } from './raster/index.ts';
import { type Abort, cancelled, done, type Outcome } from './units/index.ts';

/**
 * Works on films as many at a time as there are threads, so that no more whole masks live than that. Results come in the
 * order of the films; `ready` hears how many are done.
 */
export async function eachFilm<T>(
  films: readonly FilmLayout[],
  { workers, abort }: { readonly workers: Workers; readonly abort?: Abort | undefined },
  work: (film: FilmLayout, mask: Mask) => Promise<Outcome<T>>,
  ready: (films: number) => void,
): Promise<Outcome<T[]>> {
  const results: Outcome<T>[] = [];
  const next = [...films.entries()];
  let count = 0;
  const thread = async () => {
    for (let one = next.shift(); one; one = next.shift()) {
      if (abort?.aborted) return;
      const [at, film] = one;
      const worked = await work(film, filmMask(film));
      results[at] = worked;
      if (!worked.ok) next.length = 0;
      ready(++count);
    }
  };
  await Promise.all(Array.from({ length: workers.count }, thread));
  if (abort?.aborted) return cancelled();
  const values: T[] = [];
  for (const result of results) {
    if (result && !result.ok) return result;
    if (result) values.push(result.value);
  }
  return done(values);
}
