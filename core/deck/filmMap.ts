import type { FilmPoint, Mm, SurfacePoint } from '../units/index.ts';
import type { Deck, Face } from './deck.ts';
import { type Development, makeFlattening, USUAL_RAIL_MARGIN } from './flattening.ts';

/** How much longer the print comes out than the film, as fractions: 0.004 is 0.4 %. */
export interface Growth {
  readonly along: number;
  readonly across: number;
}

/** Surface ↔ film, both mm. */
export interface FilmMap {
  toFilm(p: SurfacePoint): FilmPoint;
  toSurface(p: FilmPoint): SurfacePoint;
  /** Film length over flat length, 1/(1 + growth). */
  readonly scale: Growth;
}

/**
 * The flattened face made smaller by what the mesh grows in the press: film = flat/(1 + growth), each way apart. `balanced`
 * shares its error over the width inside `railMargin`, the face's own.
 */
export function makeFilmMap(
  deck: Deck,
  face: Face,
  options: { readonly development: Development; readonly growth: Growth; readonly railMargin?: Mm },
): FilmMap {
  const flattening = makeFlattening(deck, face, options.development, options.railMargin ?? USUAL_RAIL_MARGIN);
  const along = 1 + options.growth.along;
  const across = 1 + options.growth.across;
  if (!(along > 0 && across > 0)) throw new Error('Mesh growth must be more than −1.');
  return {
    scale: { along: 1 / along, across: 1 / across },
    toFilm(p) {
      const { u, v } = flattening.toFlat(p);
      return { u: u / along, v: v / across };
    },
    toSurface: ({ u, v }) => flattening.toSurface({ u: u * along, v: v * across }),
  };
}
