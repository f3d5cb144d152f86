import type { FaceRaster } from './faceRaster.ts';
import type { FaceJob } from './job/index.ts';
import { underBase } from './layers.ts';
import type { Workers } from './ports/index.ts';
import { bedOf } from './printInk.ts';
import type { BedInput, ChokeInput, FilmInput, PrintInput } from './printTasks.ts';
import { blankMask, type Mask } from './raster/index.ts';
import { type Abort, cancelled, done, type Outcome, type Progress } from './units/index.ts';

/** Flat inks of a face, and what screened ones have beside them. */
export interface PrintFaceInput {
  readonly raster: FaceRaster;
  readonly face: FaceJob;
  /** As traps see them: an ink of dots is blank. In shared memory. */
  readonly separations: readonly Mask[];
  /** By place, the inks of dots: they print as they are, and a base goes under the whole of their areas. */
  readonly dots?: ReadonlyMap<number, Mask>;
  readonly areas?: ReadonlyMap<number, Mask>;
  /** Prints as the films have them, drawn in by what the mesh lets an ink spread. */
  readonly film: boolean;
  /** Is told of each ink of flat art that will not change any more, as soon as that is known: a base's bed keeps one thread alone. */
  readonly printed?: ((print: Mask) => void) | undefined;
}

/** Rows of a share: ink lies unevenly, and threads that take small shares as they become free end together. */
const SHARE_ROWS = 512;

/** All rows in shares of about the same size: first and one past the last of each. */
function rowShares(height: number): [number, number][] {
  const shares = Math.ceil(height / SHARE_ROWS);
  return Array.from({ length: shares }, (_, k) => [
    Math.floor((height * k) / shares),
    Math.floor((height * (k + 1)) / shares),
  ]);
}

/** Every ink of a face as it prints, in pull order and shared memory, by the threads: traps, then bases, then gain. */
export async function printFace(
  { raster, face, separations, dots = new Map(), areas = new Map(), film, printed: tell }: PrintFaceInput,
  { workers, abort }: { readonly workers: Workers; readonly abort?: Abort | undefined },
  say: Progress,
): Promise<Outcome<Mask[]>> {
  const { dpi, width, height } = raster;
  let printed = 0;
  // A base prints by itself first, like any ink; then its bed is laid under what prints on it.
  const prints = await Promise.all(
    face.inks.map(async (_, ink) => {
      const own = dots.get(ink);
      if (own) return own;
      const out = blankMask(width, height, true);
      await workers.run<PrintInput, void>('printInk', { separations, ink, face, dpi, out }, abort);
      printed++;
      say((0.8 * printed) / face.inks.length, `trapping ink ${printed} of ${face.inks.length}`);
      return out;
    }),
  );
  if (abort?.aborted) return cancelled();
  const covered = underBase(face.inks, prints, areas);
  const told = new Set<number>();
  const tellOf = (inks: readonly number[]) => {
    for (const ink of inks) {
      if (told.has(ink) || dots.has(ink)) continue;
      told.add(ink);
      tell?.(prints[ink] as Mask);
    }
  };
  const settled = face.inks.flatMap(({ role, gain = 0 }, ink) =>
    role === 'base' || (film && gain !== 0) ? [] : [ink],
  );
  for (const [i, ink] of face.inks.entries()) {
    if (ink.role !== 'base') continue;
    const choked = blankMask(width, height, true);
    const bed = bedOf(prints[i] as Mask, covered, i, face, dpi, film);
    await Promise.all(
      rowShares(height).map(([from, to]) =>
        workers.run<ChokeInput, void>('chokeRows', { bed, from, to, out: choked }, abort),
      ),
    );
    const laid = workers.run<BedInput, void>('layBed', { bed, choked }, abort);
    tellOf(settled);
    await laid;
    say(0.9, 'base under its inks');
  }
  if (film)
    await Promise.all(
      face.inks.map(async ({ gain = 0 }, ink) => {
        if (gain === 0 || dots.has(ink)) return;
        const print = prints[ink] as Mask;
        await workers.run<FilmInput, void>('filmInk', { separations, ink, face, dpi, print }, abort);
      }),
    );
  if (abort?.aborted) return cancelled();
  tellOf(face.inks.map((_, ink) => ink));
  return done(prints);
}
